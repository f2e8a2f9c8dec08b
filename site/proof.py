#!/usr/bin/env python3
"""Sets the book of checks: takes what the published checks wrote about themselves (JSON) and the page
around it, and prints the finished page.

    site/proof.py BOOK.json site/proof.html > proof.html

The rows stand in the page itself, so that it also opens from a folder and without JavaScript.
"""

import html
import itertools
import json
import sys


def text(value):
    return html.escape(str(value), quote=True)


def number(value, digits=7):
    return 'none' if value is None else f'{value:.{digits}g}'.replace('-', '\u2212')


def expected(check):
    if not check['band']:
        return number(check['expected'])
    low, high = (check['expected'] + side * check['tolerance'] for side in (-1, 1))
    return f'{number(low, 4)} to {number(high, 4)}'


def cell(label, content, kind=''):
    name = f' class="{kind}"' if kind else ''
    return f'<td{name} data-label="{label}"><span>{content}</span></td>'


def row(check):
    differs = not check['agrees']
    how = check['origin'] + (', worked' if check['worked'] else '')
    allowed = 'in range' if check['band'] else number(check['tolerance'], 2)
    difference = '' if check['band'] else number(check['difference'], 2)
    source = f'{text(check["source"])}<br><span class="place">{text(check["place"])}</span>'
    cells = [cell('Checked', text(check['what'])),
             cell('Expected', expected(check), 'number'),
             cell('Got', number(check['got']), 'number'),
             cell('Difference', difference or '\u2013', 'number'),
             cell('Allowed', allowed, 'number'),
             cell('Answer', 'differs' if differs else 'agrees'),
             cell('Source', source),
             cell('How', text(how))]
    return (f'<tr class="check{" differs" if differs else ""}" data-topic="{text(check["topic"])}"'
            f' data-origin="{text(check["origin"])}"'
            f' data-worked="{"yes" if check["worked"] else "no"}"'
            f' data-differs="{"yes" if differs else "no"}">{"".join(cells)}</tr>')


def title_of(topic):
    return topic.replace('_', ' ').capitalize()


def section(topic, checks):
    heads = ''.join(f'<th scope="col">{h}</th>' for h in (
        'Checked', 'Expected', 'Got', 'Difference', 'Allowed', 'Answer', 'Source and place', 'How'))
    parts = [f'<section class="topic" aria-label="{text(title_of(topic))}">',
             f'<h2>{text(title_of(topic))}</h2>',
             f'<table class="checks"><thead><tr>{heads}</tr></thead>']
    for test, rows in itertools.groupby(checks, key=lambda c: c['test']):
        name = test.split(': ', 1)[-1]
        parts.append(f'<tbody><tr class="test"><th colspan="8" scope="rowgroup">{text(name)}</th></tr>')
        parts += [row(check) for check in rows]
        parts.append('</tbody>')
    parts.append('</table></section>')
    return '\n'.join(parts)


def headline(checks):
    differing = sum(not c['agrees'] for c in checks)
    if differing == 0:
        return f'All {len(checks)} checks against the outside agree.'
    return f'{differing} of {len(checks)} checks against the outside differ.'


def main():
    book_path, page_path = sys.argv[1:]
    with open(book_path, encoding='utf-8') as file:
        book = json.load(file)
    with open(page_path, encoding='utf-8') as file:
        page = file.read()
    checks = sorted(book['checks'], key=lambda c: c['topic'])  # the order within a topic stays
    topics = sorted({c['topic'] for c in checks})
    documents = sorted({c['document'] for c in checks if c['document']}, key=str.lower)
    of_topic = {t: [c for c in checks if c['topic'] == t] for t in topics}
    summary = book['summary'].removeprefix('proof: ').capitalize() + '.'
    for name, content in (
            ('headline', headline(checks)),
            ('summary', text(summary)),
            ('topics', ''.join(f'<option value="{text(t)}">{text(title_of(t))}</option>' for t in topics)),
            ('sections', '\n'.join(section(t, of_topic[t]) for t in topics)),
            ('sources', '\n'.join(f'<li>{text(d)}</li>' for d in documents))):
        page = page.replace(f'@{name}@', content)
    sys.stdout.buffer.write(page.encode('utf-8'))


main()
