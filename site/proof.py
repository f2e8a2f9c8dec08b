#!/usr/bin/env python3
"""Sets the book of checks: takes what the published checks wrote about themselves (JSON) and the page
around it, and prints the finished page.

    site/proof.py BOOK.json site/proof.html > proof.html

The rows stand in the page itself, so that it also opens from a folder and without JavaScript; only
the numbers of the plots at its head go along as data for its script.
"""

import html
import itertools
import json
import re
import sys

KINDS = ('measured', 'worked', 'formula', 'numerics', 'own')

# What the plots at the head show: the first measured value of each quantity, in this order, as many
# as PLOTS; whether it agrees plays no part.
PLOTS = 10
PLOTTED = ('roll', 'brake rise', 'brake cooling', 'specific heat of graphite', 'idle fuel', 'braking',
           'acceleration', 'taxi speed', 'turn speed', 'fuel per thrust', 'slush drag',
           'braked friction', 'side load in turns', 'taxi time')


def text(value):
    return html.escape(str(value), quote=True)


def number(value, digits=7):
    return 'none' if value is None else f'{value:.{digits}g}'.replace('-', '\u2212')


def span(low, high):
    return f'{number(low, 3)} to {number(high, 3)}'


def slug(words):
    return re.sub(r'[^a-z0-9]+', '-', words.lower()).strip('-')


def give_names(checks):
    """Each row the name of its anchor: topic and what is checked, numbered where that is not one."""
    seen = {}
    for check in checks:
        name = f'{slug(check["topic"])}-{slug(check["what"])[:60].strip("-")}'
        seen[name] = seen.get(name, 0) + 1
        check['id'] = name if seen[name] == 1 else f'{name}-{seen[name]}'


def expected(check):
    if check['kind'] == 'measured':
        one_sided = '' if check['reads'] == 'value' else check['reads'] + ' '
        wide = check['reads'] == 'value' and check['from'] != check['to']
        spread = f' ({span(check["from"], check["to"])})' if wide else ''
        return one_sided + number(check['expected'], 4) + spread
    if not check['range']:
        return number(check['expected'])
    return span(check['expected'] - check['tolerance'], check['expected'] + check['tolerance'])


def allowed(check):
    if check['kind'] == 'measured':
        no_band = check['band_low'] == check['band_high']
        return 'the measured spread' if no_band else span(check['band_low'], check['band_high'])
    return 'in range' if check['range'] else number(check['tolerance'], 2)


def kind(check):
    words = check['kind'] + (', post' if check['post'] else '')
    if check['kind'] == 'measured' and check['band_is'] != 'none stated':
        words += f'; band: {check["band_is"]}'
    return words + (f'; likely reason: {check["reason"]}' if check['reason'] else '')


def row(check):
    differs = not check['agrees']
    plain = check['range'] or check['kind'] == 'measured'
    cells = [f'<td><a href="#{check["id"]}">{text(check["what"])}</a>',
             f'<td>{expected(check)}',
             f'<td>{number(check["got"])}',
             f'<td>{"–" if plain else number(check["difference"], 2)}',
             f'<td>{text(allowed(check))}',
             f'<td>{"differs" if differs else "agrees"}',
             f'<td><div>{text(check["source"])}<br><i>{text(check["place"])}</i></div>',
             f'<td>{text(kind(check))}']
    return (f'<tr id="{check["id"]}" class="check{" differs" if differs else ""}"'
            f' data-kind="{check["kind"]}">{"".join(cells)}')


def title_of(topic):
    return topic.replace('_', ' ').capitalize()


def section(topic, checks):
    heads = ''.join(f'<th scope="col">{h}</th>' for h in (
        'Checked', 'Expected', 'Got', 'Difference', 'Allowed', 'Answer', 'Source and place', 'Kind'))
    parts = [f'<section class="topic" data-topic="{text(topic)}" aria-label="{text(title_of(topic))}">',
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
    def count(holds):
        return sum(1 for c in checks if holds(c))
    measured = count(lambda c: c['kind'] == 'measured')
    inside = count(lambda c: c['kind'] == 'measured' and c['agrees'])
    return (f'{measured} rows compare with what was measured: in {inside} of them measurement and '
            f'answer lie within each other\u2019s spread. '
            f'{count(lambda c: c["kind"] == "worked")} repeat published worked results of this trade. '
            f'{count(lambda c: not c["agrees"])} of all rows differ, and say so.')


def plots(checks):
    """The numbers of the plots, for the page's script."""
    chosen = []
    for quantity in PLOTTED:
        chosen += [c for c in checks if c['kind'] == 'measured' and c['quantity'] == quantity and
                   c['reads'] == 'value'][:1]
    names = ('id', 'what', 'expected', 'from', 'to', 'got', 'band_low', 'band_high', 'agrees')
    return [{name: c[name] for name in names} for c in chosen[:PLOTS]]


def missing(book):
    return '\n'.join(f'<li>{text(m["quantity"])}: none found. Searched: {text(m["searched"])}.</li>'
                     for m in book['none_found'])


def sentence(line):
    words = line.split(': ', 1)[1]
    return text(words[0].upper() + words[1:] + '.')


def main():
    book_path, page_path = sys.argv[1:]
    with open(book_path, encoding='utf-8') as file:
        book = json.load(file)
    with open(page_path, encoding='utf-8') as file:
        page = file.read()
    # What was measured first; the order within a topic stays.
    checks = sorted(book['checks'], key=lambda c: (c['topic'] != 'measured', c['topic']))
    give_names(checks)
    topics = list(dict.fromkeys(c['topic'] for c in checks))
    works = sorted({c['document'] for c in checks if c['document']}, key=str.lower)
    posts = sorted({c['source'] for c in checks if c['post']}, key=str.lower)
    of_topic = {t: [c for c in checks if c['topic'] == t] for t in topics}
    for name, content in (
            ('headline', text(headline(checks))),
            ('error', sentence(book['error'])),
            ('bands', sentence(book['bands'])),
            ('summary', sentence(book['summary'])),
            ('plots', text(json.dumps(plots(checks), separators=(',', ':')))),
            ('topics', ''.join(f'<option value="{text(t)}">{text(title_of(t))}</option>' for t in topics)),
            ('kinds', ''.join(f'<option>{kind}</option>' for kind in KINDS)),
            ('sections', '\n'.join(section(t, of_topic[t]) for t in topics)),
            ('missing', missing(book)),
            ('posts', '\n'.join(f'<li>{text(p)}</li>' for p in posts)),
            ('sources', '\n'.join(f'<li>{text(d)}</li>' for d in works))):
        page = page.replace(f'@{name}@', content)
    sys.stdout.buffer.write(page.encode('utf-8'))


main()
