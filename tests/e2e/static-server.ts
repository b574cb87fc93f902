// A plain file server over a folder of the built page, that can be stopped and whose folder can be changed under way.

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join, normalize } from "node:path";

const types: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".webmanifest": "application/manifest+json",
  ".woff2": "font/woff2",
};

export interface StaticServer {
  readonly address: string;
  /** What is served from now on. */
  serve(folder: string): void;
  stop(): Promise<void>;
}

export async function startStaticServer(first: string): Promise<StaticServer> {
  let folder = first;
  const server = createServer(async (request, response) => {
    const path = normalize(new URL(request.url!, "http://page").pathname);
    try {
      const bytes = await readFile(join(folder, path === "/" ? "index.html" : path));
      response.writeHead(200, {
        "Content-Type": types[extname(path)] ?? (path === "/" ? "text/html" : "application/octet-stream"),
        "Cache-Control": "no-store",
      });
      response.end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    serve(next) {
      folder = next;
    },
    stop: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}
