// A plain static file server, as simple as the simplest host that the form may be published on.
//   node serve.mjs [--root dist] [--port 8080] [--base /] [--also demo=demo/data] [--host 127.0.0.1] [--compress yes]
// `--also NAME=FOLDER` shows another folder under NAME without putting it into what is published. `--compress yes` sends
// brotli, as most hosts do.
import { createReadStream, existsSync, readFileSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize, resolve, sep } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".mjs": "text/javascript; charset=utf-8",
  ".png": "image/png",
  ".jpg": "image/jpeg",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** What gains by it. */
const COMPRESSED = /\.(css|html|js|json|mjs|svg|txt|wasm|webmanifest)$/;
const packed = new Map();

/** The file's bytes in brotli, made once for each of its states; a good host has them ready. */
function brotli(file) {
  const key = `${file} ${statSync(file).mtimeMs}`;
  if (!packed.has(key)) packed.set(key, brotliCompressSync(readFileSync(file), { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } }));
  return packed.get(key);
}

/** The file for a path below one of the folders, or null. Never leaves the folder. */
function fileFor(folder, path) {
  const root = resolve(folder);
  const wanted = normalize(join(root, path));
  if (wanted !== root && !wanted.startsWith(root + sep)) return null;
  return existsSync(wanted) ? wanted : null;
}

function answer(request, response, { root, base, also, seen, compress }) {
  const plain = (status, text, headers = {}) => {
    response.writeHead(status, { "content-type": "text/plain; charset=utf-8", "cache-control": "no-store", ...headers });
    response.end(text);
  };
  let path;
  try { path = decodeURIComponent(new URL(request.url, "http://x").pathname); } catch { return plain(400, "bad address\n"); }
  seen?.(request.method, path);
  if (request.method !== "GET" && request.method !== "HEAD") return plain(405, "only reading here\n");
  if (path + "/" === base) return plain(301, "moved\n", { location: base });
  if (!path.startsWith(base)) return plain(404, "nothing here\n");
  const below = path.slice(base.length);
  const other = Object.keys(also).find((name) => below.startsWith(name + "/"));
  let file = other ? fileFor(also[other], below.slice(other.length + 1)) : fileFor(root, below);
  if (!file) return plain(404, "nothing here\n");
  if (statSync(file).isDirectory()) {
    if (!path.endsWith("/")) return plain(301, "moved\n", { location: path + "/" });
    file = join(file, "index.html");
    if (!existsSync(file)) return plain(404, "nothing here\n");
  }
  const small = compress && COMPRESSED.test(file) && /\bbr\b/.test(request.headers["accept-encoding"] ?? "") ? brotli(file) : null;
  response.writeHead(200, {
    ...(small ? { "content-encoding": "br", vary: "accept-encoding" } : {}),
    "content-type": TYPES[extname(file)] ?? "application/octet-stream",
    "content-length": small ? small.length : statSync(file).size,
    // As short-lived as common hosts: the service worker must not depend on fresh or stale answers.
    "cache-control": "max-age=60",
  });
  if (request.method === "HEAD") response.end(); else if (small) response.end(small); else createReadStream(file).pipe(response);
}

/**
 * Serves `root` under `base`. Resolves to { url, port, stop }; `stop` also cuts open connections, so that
 * the site is gone at once, as without signal. `seen(method, path)` is told of every request.
 */
export function serve({ root, port = 0, base = "/", also = {}, host = "127.0.0.1", seen, compress = false } = {}) {
  const whole = ("/" + base + "/").replace(/\/+/g, "/");
  const server = createServer((request, response) => answer(request, response, { root, base: whole, also, seen, compress }));
  return new Promise((resolvePromise, reject) => {
    server.once("error", reject);
    server.listen(port, host, () => {
      const taken = server.address().port;
      resolvePromise({
        port: taken,
        url: `http://localhost:${taken}${whole}`,
        stop: () => new Promise((done) => { server.close(done); server.closeAllConnections(); }),
      });
    });
  });
}

function fromArguments(words) {
  const options = { root: "dist", port: 8080, also: {} };
  for (let i = 0; i < words.length; i += 2) {
    const [name, value] = [words[i], words[i + 1]];
    if (value === undefined) throw new Error(`${name} needs a value`);
    if (name === "--also") { const [as, folder] = value.split("="); options.also[as] = folder; }
    else if (name === "--port") options.port = Number(value);
    else if (name === "--compress") options.compress = value === "yes";
    else if (["--root", "--base", "--host"].includes(name)) options[name.slice(2)] = value;
    else throw new Error(`unknown option ${name}`);
  }
  return options;
}

if (process.argv[1]?.endsWith("serve.mjs")) {
  try {
    const { url } = await serve(fromArguments(process.argv.slice(2)));
    console.log(url);
  } catch (error) {
    console.error(error.code === "EADDRINUSE" ? "That port is taken: choose another with --port NUMBER." : String(error.message));
    process.exit(1);
  }
}
