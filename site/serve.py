"""Serves a folder on this machine only: serve.py FOLDER [PORT].

Without a port, the first free one from 8737 on. Prints the address once it answers.
"""

import functools
import http.server
import sys

FIRST_PORT = 8737
PORTS_TRIED = 100


class Handler(http.server.SimpleHTTPRequestHandler):
    extensions_map = {
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        ".html": "text/html; charset=utf-8",
        ".js": "text/javascript; charset=utf-8",
        ".css": "text/css; charset=utf-8",
        ".wasm": "application/wasm",
        ".svg": "image/svg+xml",
        ".woff": "font/woff",
        ".json": "application/json",
        ".webmanifest": "application/manifest+json",
    }

    def end_headers(self):
        # A new build is seen at once; the page then offers it.
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, *args):
        pass


def open_server(folder, ports):
    handler = functools.partial(Handler, directory=folder)
    for port in ports:
        try:
            return http.server.ThreadingHTTPServer(("127.0.0.1", port), handler)
        except OSError:
            continue
    sys.exit(f"tillerline: no free port in {ports[0]}..{ports[-1]}; choose one with --port")


def main():
    folder = sys.argv[1]
    ports = range(FIRST_PORT, FIRST_PORT + PORTS_TRIED)
    if len(sys.argv) > 2:
        ports = [int(sys.argv[2])]
    server = open_server(folder, ports)
    print(f"Tillerline is at http://127.0.0.1:{server.server_address[1]}/ (Ctrl+C ends it)", flush=True)
    try:
        server.serve_forever()
    except KeyboardInterrupt:
        pass


main()
