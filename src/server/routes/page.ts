import fastifyStatic from "@fastify/static";
import type { Server } from "../server-type.ts";

const A_YEAR_SECONDS = 365 * 24 * 3600;

/** The built page with its fonts; what has a hash in its name is kept by the browser. Null where no page has been built: only the API answers. */
export async function pageRoutes(server: Server, folder: string | null): Promise<void> {
  if (folder === null) return;
  await server.register(fastifyStatic, {
    root: folder,
    preCompressed: true,
    cacheControl: false,
    setHeaders: (response, path) => {
      const lasting = /[\\/](?:assets|fonts)[\\/][^\\/]+$/.test(path);
      response.header("cache-control", lasting ? `public, max-age=${A_YEAR_SECONDS}, immutable` : "no-cache");
    },
  });
}
