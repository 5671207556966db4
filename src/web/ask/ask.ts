import { type Answered, issuesIn, runIn } from "./answered.ts";

export interface Question {
  readonly method?: "GET" | "POST" | "PUT" | "PATCH" | "DELETE";
  /** Sent as JSON. */
  readonly json?: unknown;
  readonly form?: FormData;
  readonly signal?: AbortSignal;
}

/**
 * Asks the server and takes its JSON. The answer's shape is the server's promise: both are built from the same sources, so it isn't
 * checked again here.
 */
export async function ask<T>(path: string, question: Question = {}): Promise<Answered<T>> {
  const response = await send(path, question);
  if ("kind" in response) return response;
  const body: unknown = response.status === 204 ? null : await response.json().catch(() => undefined);
  if (!response.ok) return { kind: "refused", status: response.status, issues: issuesIn(body, response.status), run: runIn(body) };
  if (body === undefined) return question.signal?.aborted ? { kind: "dropped" } : { kind: "unreachable" };
  return { kind: "told", value: body as T };
}

/** Asks for text, such as a sheet of paper. */
export async function askText(path: string, question: Question = {}): Promise<Answered<string>> {
  const response = await send(path, question);
  if ("kind" in response) return response;
  const text = await response.text().catch(() => undefined);
  if (!response.ok) return { kind: "refused", status: response.status, issues: issuesIn(parsed(text ?? ""), response.status), run: null };
  if (text === undefined) return question.signal?.aborted ? { kind: "dropped" } : { kind: "unreachable" };
  return { kind: "told", value: text };
}

async function send(
  path: string,
  { method = "GET", json, form, signal }: Question,
): Promise<Response | { readonly kind: "unreachable" | "dropped" }> {
  const body = form ?? (json === undefined ? null : JSON.stringify(json));
  try {
    return await fetch(path, {
      method,
      body,
      signal: signal ?? null,
      headers: json === undefined ? {} : { "content-type": "application/json" },
      cache: "no-store",
    });
  } catch {
    return { kind: signal?.aborted ? "dropped" : "unreachable" };
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
