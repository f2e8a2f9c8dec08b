"""Finds every place of a C++ source where a small mistake could be made, and makes it.

A mutation is one changed token (or one deleted assignment). The kinds:

  operator  + for -, * for /, += for -=, *= for /=, && for ||, and back
  bound     < for <=, > for >=, and back
  relation  < for >=, > for <=, == for !=, and back
  constant  a number by 1 % (0 by 1, a whole number by 1, a tolerance by a millionfold)
  sign      a minus sign dropped, a "not" dropped
  choice    min for max, true for false, sine for cosine, and back
  deletion  an assignment left out

Comments, strings, preprocessor lines, assertions and the angle brackets of templates stay as they
are. The project's own layout helps to tell them apart: a binary operator stands between spaces.
"""

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
    '+': [('operator', '-')], '-': [('operator', '+')],
    '*': [('operator', '/')], '/': [('operator', '*')],
    '+=': [('operator', '-=')], '-=': [('operator', '+=')],
    '*=': [('operator', '/=')], '/=': [('operator', '*=')],
    '&&': [('operator', '||')], '||': [('operator', '&&')],
    '<': [('bound', '<='), ('relation', '>=')], '<=': [('bound', '<'), ('relation', '>')],
    '>': [('bound', '>='), ('relation', '<=')], '>=': [('bound', '>'), ('relation', '<')],
    '==': [('relation', '!=')], '!=': [('relation', '==')],
}
WORDS = {'std::min': 'std::max', 'std::max': 'std::min', 'true': 'false', 'false': 'true',
         'sine': 'cosine', 'cosine': 'sine', 'std::floor': 'std::ceil', 'std::ceil': 'std::floor'}
ASSIGNMENT = re.compile(r'^ +[\w.\[\]>-]+ (?:=|\+=|-=|\*=|/=) [^;{}]*;$')
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


def changed_number(text):
    body = text.rstrip('fuUlLz')
    suffix = text[len(body):]
    if body.startswith('0x'):
        return None
    if re.fullmatch(r"[\d']+", body):
        value = int(body.replace("'", ''))
        return (str(value + 1) if value < 10 else '1') + suffix
    value = float(body.replace("'", ''))
    if value == 0.0:
        return '1.0' + suffix
    if value < 1e-5:
        return repr(value * 1e6) + suffix
    return repr(value * 1.01) + suffix


def mutations(file, text):
    """All mutations of one file, in the order of its text."""
    found = []
    line_starts = [0] + [m.end() for m in re.finditer('\n', text)]
    lines = text.split('\n')

    def add(start, end, kind, new):
        low = 0
        high = len(line_starts)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if line_starts[middle] <= start else (low, middle)
        source = lines[low]
        if not SKIPPED_LINE.match(source):
            found.append(Mutation(file, start, end, low + 1, start - line_starts[low] + 1, kind,
                                  text[start:end], new, source.strip()))

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
            add(start, end, 'choice', WORDS[token])
        elif kind == 'symbol':
            spaced = text[start - 1:start].isspace() and text[end:end + 1].isspace()
            if token in SWAPPED and spaced:
                for what, new in SWAPPED[token]:
                    add(start, end, what, new)
            elif token == '-' and not spaced and not (
                    previous and (previous[0] == 'number' or previous[1] in (')', ']'))):
                add(start, end, 'sign', '')
            elif token == '!':
                add(start, end, 'sign', '')
        previous = (kind, token)

    for index, line in enumerate(lines):
        if ASSIGNMENT.match(line):
            begin = line_starts[index] + len(line) - len(line.lstrip())
            add(begin, line_starts[index] + len(line), 'deletion', ';')
    return found
