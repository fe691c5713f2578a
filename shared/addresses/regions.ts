/** A state or province: how it is written, and between which beginnings its postcodes lie, both counted in. */
interface Region {
  readonly names: readonly string[];
  readonly ranges: readonly (readonly [string, string])[];
}

/**
 * States and territories of the United States by the first three digits of the ZIP Code, as in the postal service's
 * labeling list of three-digit prefixes (Domestic Mail Manual, L002); written down from memory.
 */
const US = `
AL Alabama 350-369|AK Alaska 995-999|AZ Arizona 850-865|AR Arkansas 716-729|CA California 900-961|CO Colorado 800-816
CT Connecticut 060-069|DE Delaware 197-199|DC District of Columbia 200-205 569-569|FL Florida 320-339 341-349
GA Georgia 300-319 398-399|HI Hawaii 967-968|ID Idaho 832-838|IL Illinois 600-629|IN Indiana 460-479|IA Iowa 500-528
KS Kansas 660-679|KY Kentucky 400-427|LA Louisiana 700-714|ME Maine 039-049|MD Maryland 206-219
MA Massachusetts 010-027 055-055|MI Michigan 480-499|MN Minnesota 550-567|MS Mississippi 386-397|MO Missouri 630-658
MT Montana 590-599|NE Nebraska 680-693|NV Nevada 889-898|NH New Hampshire 030-038|NJ New Jersey 070-089
NM New Mexico 870-884|NY New York 100-149 005-005 063-063|NC North Carolina 270-289|ND North Dakota 580-588|OH Ohio 430-459
OK Oklahoma 730-749|OR Oregon 970-979|PA Pennsylvania 150-196|RI Rhode Island 028-029|SC South Carolina 290-299
SD South Dakota 570-577|TN Tennessee 370-385 422-422|TX Texas 750-799 885-885 733-733 739-739|UT Utah 840-847
VT Vermont 050-059|VA Virginia 201-201 220-246|WA Washington 980-994|WV West Virginia 247-268|WI Wisconsin 530-549
WY Wyoming 820-831 834-834|PR Puerto Rico 006-009|VI Virgin Islands 008-008|GU Guam 969-969|AS American Samoa 967-967
MP Northern Mariana Islands 969-969|AE Armed Forces Europe 090-099|AP Armed Forces Pacific 962-966
AA Armed Forces Americas 340-340`;

/** Provinces of Canada by the first letter of the postal code, from memory. */
const CA = `
NL Newfoundland and Labrador A-A|NS Nova Scotia B-B|PE Prince Edward Island C-C|NB New Brunswick E-E|QC Quebec G-H J-J
ON Ontario K-N P-P|MB Manitoba R-R|SK Saskatchewan S-S|AB Alberta T-T|BC British Columbia V-V
NT Northwest Territories X-X|NU Nunavut X-X|YT Yukon Y-Y`;

/** Provinces of Spain, in the order of the first two digits of the postcode, from memory. */
const ES =
  'Álava/Araba Albacete Alicante/Alacant Almería Ávila Badajoz Baleares/Illes_Balears Barcelona Burgos Cáceres Cádiz ' +
  'Castellón/Castelló Ciudad_Real Córdoba Coruña/A_Coruña/La_Coruña Cuenca Girona/Gerona Granada Guadalajara ' +
  'Guipúzcoa/Gipuzkoa Huelva Huesca Jaén León Lleida/Lérida La_Rioja Lugo Madrid Málaga Murcia Navarra Ourense/Orense ' +
  'Asturias Palencia Las_Palmas Pontevedra Salamanca Santa_Cruz_de_Tenerife Cantabria Segovia Sevilla Soria Tarragona ' +
  'Teruel Toledo Valencia/València Valladolid Vizcaya/Bizkaia Zamora Zaragoza Ceuta Melilla';

const REGIONS: Readonly<Record<string, readonly Region[]>> = {
  US: coded(US),
  CA: coded(CA),
  ES: ES.split(' ').map((names, index) => {
    const code = String(index + 1).padStart(2, '0');
    return { names: names.replace(/_/g, ' ').split('/'), ranges: [[code, code]] };
  }),
};

function coded(table: string): readonly Region[] {
  return table
    .trim()
    .split(/[|\n]/)
    .map((line) => {
      const words = line.split(' ');
      const ranges = words.filter((word) => /^[\dA-Z]+-[\dA-Z]+$/.test(word));
      const [code = '', ...name] = words.filter((word) => !ranges.includes(word));
      return {
        names: [name.join(' '), code],
        ranges: ranges.map((range) => [range.split('-')[0] ?? '', range.split('-')[1] ?? ''] as const),
      };
    });
}

function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/[^\p{L}\p{N}]+/gu, '')
    .toLowerCase();
}

/** Whether addresses of the country name a state or province as a rule. */
export function namesRegions(country: string): boolean {
  return country === 'US' || country === 'CA';
}

const holds = ({ ranges }: Region, postcode: string): boolean =>
  ranges.some(([first, last]) => {
    const start = postcode.slice(0, first.length);
    return start >= first && start <= last;
  });

const NAMED = Object.fromEntries(
  Object.entries(REGIONS).map(([country, regions]) => [
    country,
    new Map(regions.flatMap(({ names }) => names.map((name) => [plain(name), names[0] ?? name]))),
  ]),
);

/** The name of the region that a text is; null where it is none that we know. */
export function regionNamed(text: string, country: string): string | null {
  return NAMED[country]?.get(plain(text)) ?? null;
}

/** The names of the regions in which a postcode lies; none where nobody knows. */
export function regionsOf(postcode: string, country: string): readonly string[] {
  const written = postcode.toUpperCase().trim();
  return (REGIONS[country] ?? []).filter((region) => holds(region, written)).map(({ names }) => names[0] ?? '');
}
