import type { MarkedExtension } from 'marked';
import { escapeHtml, type ChapterContext } from './context.ts';

/** Calculators: a custom element on lines of its own, with the text that stands in for it before any script runs. */

const ELEMENT = /^<(plumb-[a-z-]+)((?:\s+[a-z-]+(?:="[^"]*")?)*)\s*>([\s\S]*?)<\/\1>[ \t]*(?:\n+|$)/;
const ADDRESS = /^([A-H])(\d)(?:\.(\d+))?$/;

export function calculatorSyntax(context: ChapterContext): MarkedExtension {
  return {
    extensions: [
      {
        name: 'calculator',
        level: 'block',
        start: (src) => /^<plumb-/m.exec(src)?.index,
        tokenizer(src) {
          const match = ELEMENT.exec(src);
          if (!match) return undefined;
          const inner = (match[3] ?? '').trim();
          return {
            type: 'calculator',
            raw: match[0],
            tag: match[1],
            attributes: readAttributes(match[2] ?? ''),
            tokens: inner ? this.lexer.blockTokens(`${inner}\n`, []) : [],
          };
        },
        renderer(token) {
          const tag = String(token['tag']);
          const attributes: unknown = token['attributes'];
          if (!(attributes instanceof Map)) return false;
          const tokens = token.tokens ?? [];
          const slotted = tokens.filter(
            (child) => child.type === 'html' && /^<\w[^>]*\sslot="/.test(child.raw),
          );
          const text = this.parser.parse(tokens.filter((child) => !slotted.includes(child)));
          return (
            elementHtml(context, tag, attributes, text) +
            slotted.map((child) => child.raw.trim()).join('') +
            `</${tag}>\n`
          );
        },
      },
    ],
  };
}

function readAttributes(text: string): Map<string, string> {
  const attributes = new Map<string, string>();
  for (const match of text.matchAll(/([a-z-]+)(?:="([^"]*)")?/g))
    attributes.set(match[1] ?? '', match[2] ?? '');
  return attributes;
}

/** Opening tag and stand-in text. An element with an address is a calculator: it gets an id and a panel. */
function elementHtml(
  context: ChapterContext,
  tag: string,
  attributes: ReadonlyMap<unknown, unknown>,
  text: string,
): string {
  const given = [...attributes].map(([name, value]) => ` ${String(name)}="${String(value)}"`).join('');
  const address = attributes.get('address');
  if (typeof address !== 'string') return `<${tag} class="element"${given}>${text}`;

  const heading = attributes.get('heading');
  if (typeof heading !== 'string' || !heading)
    context.fail(`<${tag}> at ${address} has no heading. Add heading="…", the plain title of its panel.`);
  const place = ADDRESS.exec(address);
  if (!place)
    context.fail(
      `<${tag}> has the address “${address}”. Write a letter and the chapter’s number: “E3”, “D3.1”.`,
    );
  if (place[1] !== context.part || Number(place[2]) !== context.number)
    context.fail(
      `<${tag}> has the address “${address}” but stands in part ${context.part ?? 'none'} of chapter ${context.number ?? 'none'}.`,
    );

  const id = context.claim(address.toLowerCase().replace('.', '-'));
  context.calculators.push({ id, address, heading, part: context.part });
  const width = attributes.has('narrow') ? 'calculator narrow' : 'calculator wide';
  return (
    `<${tag} id="${id}" class="${width}"${given}>` +
    `<section class="panel stand-in" aria-label="${escapeHtml(`${address} ${heading}`)}">` +
    `<header class="panel-head"><span class="panel-address">${address}</span><h3>${escapeHtml(heading)}</h3></header>` +
    `<div class="panel-body">${text}</div></section>`
  );
}
