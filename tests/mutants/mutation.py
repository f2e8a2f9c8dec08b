"""Finds every place of a C++ source where a small mistake could be made, and makes it.

A mutation is one changed token (or one deleted assignment). The kinds:

  boundary    < for <=, > for >=, and back
  reversed    < for >=, > for <=, == for !=, && for ||, true for false, and back; a "not" dropped
  arithmetic  + for -, * for /, += for -=, *= for /=, and back; a minus sign dropped
  choice      min for max, sine for cosine, floor for ceil, and back
  constant    a number in code by 1 % (0 by 1, a whole number by 1, a tolerance by a millionfold)
  deletion    an assignment left out
  default     the value that an input of core/physics/given has by itself, by 1 % or 1
  field       a range, a step, the decimals or a gap in a row of core/documents' tables, likewise
  word        a letter of a string, or all of one that has no letters

Comments, preprocessor lines, assertions and the angle brackets of templates stay as they are. The
project's own layout helps to tell them apart: a binary operator stands between spaces.
"""


import bisect
import dataclasses
import re

TOKEN = re.compile(
    r'''(?P<comment>//[^\n]*|/\*.*?\*/)
      | (?P<preprocessor>(?<![^\n])[ ]*\#[^\n]*(?:\\\n[^\n]*)*)
      | (?P<string>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')
      | (?P<number>(?:0x[0-9a-fA-F.]+(?:p[+-]?\d+)?|\d[\d']*\.?\d*(?:[eE][+-]?\d+)?)[fuUlLz]*)
      | (?P<word>[A-Za-z_]\w*(?:::[A-Za-z_]\w*)*)
      | (?P<symbol><<=|>>=|<=>|->|\+\+|--|<<|>>|<=|>=|==|!=|&&|\|\||\+=|-=|\*=|/=|::|[-+*/%<>=!&|^~?:;,.(){}\[\]])
      | (?P<space>\s+)
      | (?P<other>.)''',
    re.VERBOSE | re.DOTALL)

SWAPPED = {
    '+': [('arithmetic', '-')], '-': [('arithmetic', '+')],
    '*': [('arithmetic', '/')], '/': [('arithmetic', '*')],
    '+=': [('arithmetic', '-=')], '-=': [('arithmetic', '+=')],
    '*=': [('arithmetic', '/=')], '/=': [('arithmetic', '*=')],
    '&&': [('reversed', '||')], '||': [('reversed', '&&')],
    '<': [('boundary', '<='), ('reversed', '>=')], '<=': [('boundary', '<'), ('reversed', '>')],
    '>': [('boundary', '>='), ('reversed', '<=')], '>=': [('boundary', '>'), ('reversed', '<')],
    '==': [('reversed', '!=')], '!=': [('reversed', '==')],
}
WORDS = {'std::min': 'std::max', 'std::max': 'std::min', 'true': 'false', 'false': 'true',
         'sine': 'cosine', 'cosine': 'sine', 'std::floor': 'std::ceil', 'std::ceil': 'std::floor'}
ASSIGNMENT = re.compile(r'^ +[\w.\[\]>-]+ (?:=|\+=|-=|\*=|/=) [^;{}]*;$')
# A row of a table of fields, and a pair of fields with the gap between them.
FIELD_LINE = re.compile(r'\.(?:range|hole|fine_step|coarse_step|decimals) = '
                        r'|^\{"\w+", "\w+", [\d.]+\}')
STRUCT = re.compile(r'^struct (\w+) \{\n(.*?)^\};', re.MULTILINE | re.DOTALL)
DEFAULT = re.compile(r'^  [\w:]+ \w+ =([^;]*);', re.MULTILINE)
# Lines whose change says nothing about what the program computes.
SKIPPED_LINE = re.compile(r'^\s*(?:static_assert|assert\(|template|using |namespace|#)')


@dataclasses.dataclass(frozen=True)
class Mutation:
    file: str       # relative to the root of the repository
    start: int
    end: int
    line: int       # from 1
    column: int
    kind: str
    old: str
    new: str
    source: str     # the line, without its indent

    @property
    def name(self):
        shown = self.new or 'nothing'
        return f'{self.old} -> {shown}'

    def applied(self, text):
        return text[:self.start] + self.new + text[self.end:]


def changed_number(text, whole_by_one=False):
    body = text.rstrip('fuUlLz')
    suffix = text[len(body):]
    if body.startswith('0x'):
        return None
    if re.fullmatch(r"[\d']+", body):
        value = int(body.replace("'", ''))
        return (str(value + 1) if value < 10 or whole_by_one else '1') + suffix
    value = float(body.replace("'", ''))
    if value == 0.0:
        return '1.0' + suffix
    if value < 1e-5:
        return repr(value * 1e6) + suffix
    return repr(value * 1.01) + suffix


class Finder:
    """Gathers mutations of one file."""

    def __init__(self, file, text):
        self.file, self.text, self.found = file, text, []
        self.line_starts = [0] + [m.end() for m in re.finditer('\n', text)]
        self.lines = text.split('\n')

    def add(self, start, end, kind, new):
        index = bisect.bisect_right(self.line_starts, start) - 1
        source = self.lines[index]
        if not SKIPPED_LINE.match(source):
            self.found.append(Mutation(self.file, start, end, index + 1,
                                       start - self.line_starts[index] + 1, kind,
                                       self.text[start:end], new, source.strip()))


def defaults(file, text):
    """The values that inputs have by themselves: members of plain structs. A type with constexpr
    constructors is used where the compiler computes, and has no value of its own to be wrong."""
    finder = Finder(file, text)
    for struct in STRUCT.finditer(text):
        if 'constexpr' in struct.group(2):
            continue
        for member in DEFAULT.finditer(text, struct.start(2), struct.end(2)):
            for match in TOKEN.finditer(text, member.start(1), member.end(1)):
                token = match.group()
                new = (changed_number(token, True) if match.lastgroup == 'number' else
                       WORDS.get(token) if token in ('true', 'false') else None)
                if new:
                    finder.add(match.start(), match.end(), 'default', new)
    return finder.found


def changed_string(text):
    """With another letter in its middle; empty where it has none, None where it is empty."""
    letters = [i for i in range(1, len(text) - 1)
               if text[i].isascii() and text[i].isalnum() and text[i - 1] != '\\']
    if not letters:
        return '""' if len(text) > 2 else None
    at = letters[len(letters) // 2]
    other = {'a': 'e', 'A': 'E', '0': '1'}.get(text[at])
    other = other or ('0' if text[at].isdigit() else 'A' if text[at].isupper() else 'a')
    return text[:at] + other + text[at + 1:]


def words_and_numbers(file, text):
    """Of the documents: what is written there, rather than how it is worked out."""
    finder = Finder(file, text)
    previous = None
    for match in TOKEN.finditer(text):
        kind, token = match.lastgroup, match.group()
        if kind in ('space', 'comment', 'preprocessor'):
            continue
        new = None
        if kind == 'number' and previous != '[':
            new = changed_number(token, True)
        elif kind == 'string' and token.startswith('"'):
            kind, new = 'word', changed_string(token)
        if new:
            finder.add(match.start(), match.end(), kind, new)
        previous = token
    return [dataclasses.replace(m, kind='field' if FIELD_LINE.search(m.source) else 'constant')
            if m.kind == 'number' else m for m in finder.found]


def mutations(file, text):
    """All mutations of one file of the physics, in the order of its text."""
    finder = Finder(file, text)
    add = finder.add

    previous = None  # the last token that is no space or comment
    for match in TOKEN.finditer(text):
        kind, token = match.lastgroup, match.group()
        start, end = match.span()
        if kind in ('space', 'comment', 'preprocessor', 'string'):
            if kind == 'string':
                previous = ('string', token)
            continue
        if kind == 'number':
            new = changed_number(token)
            # The length of an array only reserves room.
            if new and previous != ('symbol', '['):
                add(start, end, 'constant', new)
        elif kind == 'word' and token in WORDS:
            add(start, end, 'reversed' if token in ('true', 'false') else 'choice', WORDS[token])
        elif kind == 'symbol':
            spaced = text[start - 1:start].isspace() and text[end:end + 1].isspace()
            if token in SWAPPED and spaced:
                for what, new in SWAPPED[token]:
                    add(start, end, what, new)
            elif token == '-' and not spaced and not (
                    previous and (previous[0] == 'number' or previous[1] in (')', ']'))):
                add(start, end, 'arithmetic', '')
            elif token == '!':
                add(start, end, 'reversed', '')
        previous = (kind, token)

    for start, line in zip(finder.line_starts, finder.lines):
        if ASSIGNMENT.match(line):
            add(start + len(line) - len(line.lstrip()), start + len(line), 'deletion', ';')
    return finder.found
