import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { calendarDay } from '#server/calendar.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { SkillView } from '#shared/wire/people.ts';
import type { Language } from '#shared/words/language.ts';

const WORDS: Readonly<Record<Language, Readonly<Record<'skill' | 'day' | 'by' | 'none', string>>>> = {
  en: { skill: 'Skill', day: 'Signed off on', by: 'by', none: 'Nothing is signed off yet.' },
  es: { skill: 'Destreza', day: 'Firmada el', by: 'por', none: 'Aún no hay nada firmado.' },
};

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const text = (raw: string): string => raw.replace(/[&<>"]/g, (sign) => ESCAPES[sign] ?? '');

/** A person's training record as a page of its own, to be printed on a sheet and signed. */
export function recordPage(
  shop: Shop,
  name: string,
  skills: readonly SkillView[],
  language: Language,
  now: number,
): string {
  const words = WORDS[language];
  const paper = PAPER_WORDS[language];
  const rows = skills.flatMap(({ name: skill, signed }) =>
    signed === null
      ? []
      : [
          `<tr><th scope="row">${text(skill[language])}</th><td>${calendarDay(signed.at, shop.timeZone)}</td><td>${text(signed.by)}</td></tr>`,
        ],
  );
  const table =
    rows.length === 0
      ? `<p>${words.none}</p>`
      : `<table><thead><tr><th scope="col">${words.skill}</th><th scope="col">${words.day}</th><th scope="col">${words.by}</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
  return `<!doctype html>
<html lang="${language}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${text(name)} · ${paper.trained}</title>
<style>
  body { font: 17px/1.4 system-ui, sans-serif; color: #1b2130; background: #fff; max-width: 44rem; margin: 3rem auto; padding: 0 1rem; }
  h1 { font-size: 2.2rem; margin: 0; } table { border-collapse: collapse; width: 100%; margin: 2rem 0; }
  th, td { text-align: left; padding: .5rem 1rem .5rem 0; border-bottom: 1px solid #d8c8a6; } thead th { border-bottom: 3px dashed #5a4632; }
  .sign { margin-top: 5rem; border-top: 1px solid #1b2130; padding-top: .4rem; width: 60%; }
</style></head><body>
<p>${text(shop.name)}</p><h1>${text(name)}</h1><p>${paper.trained} · ${calendarDay(now, shop.timeZone)}</p>
${table}
<p class="sign">${paper.signature}</p>
</body></html>
`;
}
