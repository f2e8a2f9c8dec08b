#!/usr/bin/env python3
"""The colours of the looks, from colours.json to where they are needed:

    colours.py cpp                the palettes of the canvas (theme.hpp), as C++
    colours.py page FILE          the file of the page with its places for colours filled:
                                  /* @colours@ */ by custom properties a look, @light.paper@ and the
                                  like by one colour

"edge", the line that bounds a field, is the page's alone; "shade" is the canvas's alone.
"""

import json
import pathlib
import re
import sys

PAGE_ONLY = {'edge'}
CANVAS_ONLY = {'second', 'third', 'veil', 'pavement', 'shade'}
SCHEME = {'light': 'light', 'dark': 'dark', 'night': 'dark'}

LOOKS = json.loads(pathlib.Path(__file__).with_name('colours.json').read_text())


def packed(colour):
    digits = colour.removeprefix('#').ljust(8, 'f')
    return 'IM_COL32(%s)' % ', '.join(str(int(digits[i:i + 2], 16)) for i in range(0, 8, 2))


def cpp():
    lines = ['// Made by colours.py from colours.json.', '#include "paint/theme.hpp"', '',
             'namespace tillerline::theme {', '']
    for look, colours in LOOKS.items():
        lines.append(f'extern const Palette k{look.capitalize()}Palette{{')
        for name, colour in colours.items():
            if name in PAGE_ONLY:
                continue
            value = packed(colour) if isinstance(colour, str) else (
                '{%s}' % ', '.join(map(packed, colour)))
            lines.append(f'    .{name} = {value},')
        lines += ['};', '']
    lines.append('}  // namespace tillerline::theme')
    return '\n'.join(lines) + '\n'


def properties(look, indent):
    lines = [f'color-scheme: {SCHEME[look]};']
    lines += [f'--{name.replace("_", "-")}: {colour};' for name, colour in LOOKS[look].items()
              if name not in CANVAS_ONLY]
    return '\n'.join(indent + line for line in lines)


def css():
    """The app names the look; before it does, and without it, the system decides."""
    parts = [f':root {{\n{properties("light", "  ")}\n}}',
             '@media (prefers-color-scheme: dark) {\n  :root:not([data-theme]) {\n'
             f'{properties("dark", "    ")}\n  }}\n}}']
    parts += [f':root[data-theme="{look}"] {{\n{properties(look, "  ")}\n}}'
              for look in LOOKS if look != 'light']
    return '\n'.join(parts)


def page(path):
    text = pathlib.Path(path).read_text().replace('/* @colours@ */', css())
    return re.sub(r'@(light|dark|night)\.(\w+)@', lambda m: LOOKS[m[1]][m[2]], text)


def main():
    what, *rest = sys.argv[1:]
    sys.stdout.write(cpp() if what == 'cpp' else page(*rest))


main()
