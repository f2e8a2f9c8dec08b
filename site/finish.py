#!/usr/bin/env python3
"""Makes the site out of its parts, so that all of it is of one build:

    site/finish.py PARTS SITE

- stamps the page with the build's id and with the hash of every file it loads, so that a browser
  refuses a mixture of two builds;
- gives the service worker the list of all files with their hashes;
- packs page, program, book of checks and licences into one file, tillerline.html.

The same parts give the same bytes: nothing is offered as new that is not.
"""

import base64
import gzip
import hashlib
import json
import pathlib
import re
import shutil
import sys

ONE_FILE = 'tillerline.html'
WORKER = 'worker.js'
FILE_LIST = 'self.__WB_MANIFEST'  # where Workbox wants it
ONE_FILE_ONLY = {'embedded.js'}
BESIDE_THE_PAGE = ['proof.html', 'licences.txt']  # what the one file has inside

SCRIPT = re.compile(r'<script defer src="([^"]+)"([^>]*)></script>')
STYLE = re.compile(r'<link rel="stylesheet" href="([^"]+)">')
ICON = re.compile(r'<link rel="icon" type="image/svg\+xml" href="([^"]+)">')
POLICY = re.compile(r'(<meta http-equiv="Content-Security-Policy" content=")[^"]*(">)')
SITE_ONLY = re.compile(r'<!-- site -->.*?<!-- /site -->\n?', re.DOTALL)
ONE_FILE_PART = re.compile(r'<!-- one file\n(.*?)-->\n?', re.DOTALL)


def for_site(page):
    """Without what is only for the one file, and without the marks around what is not."""
    return re.sub(r'<!-- /?site -->\n?', '', ONE_FILE_PART.sub('', page))


def sha256(content):
    digest = hashlib.sha256(content).digest()
    return 'sha256-' + base64.b64encode(digest).decode('ascii')


def data_url(kind, content):
    return f'data:{kind};base64,' + base64.b64encode(content).decode('ascii')


def build_id(parts):
    whole = hashlib.sha256(pathlib.Path(__file__).read_bytes())
    for name in sorted(parts):
        whole.update(name.encode() + b'\0' + hashlib.sha256(parts[name]).digest())
    return whole.hexdigest()[:8]


def with_hashes(page, parts):
    """boot.js has none: it is what tells the user that another file was refused."""
    def script(match):
        name, rest = match.groups()
        if name == 'boot.js':
            return f'<script defer src="{name}" data-wasm="{sha256(parts["app.wasm"])}"></script>'
        return f'<script defer src="{name}" integrity="{sha256(parts[name])}"{rest}></script>'

    def style(match):
        return f'{match.group(0)[:-1]} integrity="{sha256(parts[match.group(1)])}">'

    return STYLE.sub(style, SCRIPT.sub(script, page))


def inlined(page, parts, first_scripts=()):
    """The page with all it loads inside, its scripts at the end of the body, and their hashes."""
    page = ONE_FILE_PART.sub(lambda match: match.group(1), SITE_ONLY.sub('', page))
    scripts = list(first_scripts) + [match.group(1) for match in SCRIPT.finditer(page)]
    texts = {'script': [], 'style': []}

    def element(tag, text):
        if '<!--' in text:
            sys.exit(f'tillerline: a {tag} with "<!--" inside cannot stand in a page')
        text = text.replace('</' + tag, '<\\/' + tag)
        texts[tag].append(sha256(text.encode()))
        return f'<{tag}>{text}</{tag}>'

    def style(match):
        text = re.sub(r'url\("([^"]+\.woff)"\)',
                      lambda font: f'url("{data_url("font/woff", parts[font.group(1)])}")',
                      parts[match.group(1)].decode())
        return element('style', text)

    page = STYLE.sub(style, page)
    page = ICON.sub(lambda match: match.group(0).replace(
        match.group(1), data_url('image/svg+xml', parts[match.group(1)])), page)
    body = '\n'.join(element('script', parts[name].decode()) for name in scripts)
    page = SCRIPT.sub('', page).replace('</body>', body + '\n</body>')
    return page, texts


def with_policy(page, texts, more=''):
    allowed = {tag: ' '.join(f"'{text}'" for text in dict.fromkeys(texts[tag])) for tag in texts}
    policy = (f"default-src 'none'; script-src {allowed['script']}{more}; "
              f"style-src {allowed['style']}; img-src data:; font-src data:; base-uri 'none'; "
              "form-action 'none'")
    return POLICY.sub(lambda match: match.group(1) + policy + match.group(2), page)


def packed(name, content):
    text = base64.b64encode(gzip.compress(content, 9, mtime=0)).decode('ascii')
    return f'<script type="application/gzip" data-name="{name}">{text}</script>'


def one_file(page, parts):
    page, texts = inlined(page, parts, ['embedded.js'])
    holders = [packed('app.wasm', parts['app.wasm'])]
    for name in BESIDE_THE_PAGE:
        if name not in parts:
            continue
        content = parts[name]
        if name.endswith('.html'):
            book, book_texts = inlined(content.decode(), parts)
            content = with_policy(book, book_texts).encode()
            # A page opened out of this one is under this one's policy, too.
            for tag in texts:
                texts[tag] += book_texts[tag]
        holders.append(packed(name, content))
    page = with_policy(page, texts, " 'wasm-unsafe-eval'")
    first = page.index('<script>')
    return page[:first] + '\n'.join(holders) + '\n' + page[first:]


def file_list(files):
    return [{'url': name, 'revision': hashlib.sha256(content).hexdigest()[:16],
             'integrity': sha256(content)} for name, content in sorted(files.items())]


def with_file_list(worker, files):
    text = worker.decode()
    if text.count(FILE_LIST) != 1:
        sys.exit(f'tillerline: {WORKER} has no place, or several, for the list of files')
    return text.replace(FILE_LIST, json.dumps(file_list(files), separators=(',', ':'))).encode()


def finish(parts):
    page = parts['index.html'].decode().replace('@build@', build_id(parts))
    whole = one_file(page, parts).encode()
    files = {name: content for name, content in parts.items()
             if name not in ONE_FILE_ONLY and name != WORKER}
    files['index.html'] = page.replace('@one-file-size@', f'{len(whole) / 1e6:.1f}').encode()
    for name in files:
        if name.endswith('.html'):
            files[name] = for_site(files[name].decode()).encode()
    files['index.html'] = with_hashes(files['index.html'].decode(), parts).encode()
    files[ONE_FILE] = whole
    files[WORKER] = with_file_list(parts[WORKER], files)
    return files


def sizes(files):
    """In kB as stored and as sent compressed; the one file apart, since it repeats the others."""
    def total(names, size):
        return round(sum(size(files[name]) for name in names) / 1000)

    def sent(content):
        return len(gzip.compress(content, 9))

    def starts(name):
        of_page = not name.startswith('proof.') and name not in (WORKER, ONE_FILE)
        return of_page and name.endswith(('.html', '.css', '.js', '.wasm', '.woff'))

    start = [name for name in files if starts(name)]
    rest = [name for name in files if not starts(name) and name != ONE_FILE]
    return '; '.join(f'{what} {total(names, len)} kB ({total(names, sent)} compressed)'
                     for what, names in (('to start', start), ('kept besides', rest),
                                         ('one file', [ONE_FILE])))


def main():
    parts_folder, site_folder = (pathlib.Path(path) for path in sys.argv[1:])
    parts = {path.relative_to(parts_folder).as_posix(): path.read_bytes()
             for path in parts_folder.rglob('*') if path.is_file()}
    # Complete before it takes the place of the last one, which may be served at this moment.
    made = site_folder.with_name(site_folder.name + '.new')
    shutil.rmtree(made, ignore_errors=True)
    files = finish(parts)
    for name, content in files.items():
        (made / name).parent.mkdir(parents=True, exist_ok=True)
        (made / name).write_bytes(content)
    shutil.rmtree(site_folder, ignore_errors=True)
    made.rename(site_folder)
    print('Sizes: ' + sizes(files), file=sys.stderr)


main()
