import { Hdf5Fault, Hdf5TooLarge } from "./hdf5-fault.ts";
import { HDF5_OBJECT, type Hdf5Facts } from "./hdf5-library.ts";
import type { Hdf5Session } from "./hdf5-session.ts";
import { type ObjectAttributes, readAttributes } from "./read-attributes.ts";

/** A dataset as the file holds it. */
export interface StoredDataset {
  /** From the root: `/wave/height`. */
  readonly path: string;
  /** The group it lies in: `/`, `/wave`. */
  readonly group: string;
  readonly name: string;
  /** Where its object header stands in the file, which is how others refer to it. */
  readonly addressBytes: number;
  readonly facts: Hdf5Facts;
  readonly attributes: ObjectAttributes;
}

/** All datasets of a file, group by group in the file's own order, and the root's attributes. */
export interface StoredTree {
  readonly datasets: readonly StoredDataset[];
  /** Paths of the groups, inner ones before the one they lie in. */
  readonly groups: readonly string[];
  readonly attributes: ObjectAttributes;
}

const MOST_DATASETS = 10_000;
const DEEPEST_GROUP = 32;

/** Walks the groups. Links that lead out of the file or nowhere are passed over, and so is a group met again. */
export function readTree(session: Hdf5Session): StoredTree {
  const datasets: StoredDataset[] = [];
  const groups: string[] = [];
  const seen = new Set<number>();
  const visit = (group: string, depth: number): void => {
    const address = addressOf(session, group);
    if (seen.has(address)) return;
    seen.add(address);
    if (depth > DEEPEST_GROUP || seen.size > MOST_DATASETS) throw new Hdf5TooLarge("it has more groups than are read");
    const inner: string[] = [];
    for (const name of session.run((module, file) => module.get_names(file, group, false))) {
      const path = group === "/" ? `/${name}` : `${group}/${name}`;
      const kind = kindOf(session, path);
      if (kind === HDF5_OBJECT.group) inner.push(path);
      if (kind !== HDF5_OBJECT.dataset) continue;
      if (datasets.length >= MOST_DATASETS) throw new Hdf5TooLarge("it has more variables than are read");
      const facts = session.run((module, file) => module.get_dataset_metadata(file, path));
      const attributes = readAttributes(session, path);
      datasets.push({ path, group, name, addressBytes: addressOf(session, path), facts, attributes });
    }
    for (const path of inner) visit(path, depth + 1);
    groups.push(group);
  };
  visit("/", 0);
  return { datasets, groups, attributes: readAttributes(session, "/") };
}

function kindOf(session: Hdf5Session, path: string): number {
  try {
    return session.run((module, file) => module.get_type(file, path));
  } catch (error) {
    if (!(error instanceof Hdf5Fault)) throw error;
    const link = session.run((module, file) => module.get_external_link(file, path));
    if (link.filename === undefined) throw error;
    return -1;
  }
}

function addressOf(session: Hdf5Session, path: string): number {
  const bytes = session.run((module, file) => module.create_object_reference(file, path));
  return bytes.reduceRight((address, byte) => address * 256 + byte, 0);
}
