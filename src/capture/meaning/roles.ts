// What a channel is, told from its name and unit. English, German, French, Spanish, Italian, Portuguese, Polish and Dutch words of the trade.

import type { Bank, Role } from "../model/capture.ts";
import { inEnglish } from "./foreign-words.ts";
import { conversionOf } from "./quantities.ts";

export interface NamedRole {
  readonly role: Role;
  /** Null where the name does not say. */
  readonly bank: Bank | null;
}

interface Rule {
  readonly role: Role;
  readonly says: RegExp;
  /** Words that make it something else. */
  readonly unless?: RegExp;
  /** Canonical units it can have; a channel without a unit always may. */
  readonly units: readonly string[];
}

// Names are compared in lower case, without accents, with blanks for all punctuation.
const wanted =
  /\b(target|desired|command\w*|cmd|set ?point|soll\w*|consigne|objetivo|request\w*|specified|demand\w*|deseado|solicitado|desejad[oa]|obiettivo|richiest[oa]|zadan\w*|gewenst\w*|max|limit)\b/;
const elsewhere =
  /\b(wheel|rad|roue|rueda|brake|axle|tyre|tire|fan|turbo|turbine|shaft|gear\w*|pump|wind|supercharger|cam|camshaft|knock|alternator|generator|batter(y|ie|ia)|bateria|ruota|freno|pompa|ventola|roda|freio|bomba|ventoinha|kol[ao]|hamul\w*|wentylator\w*|akumulator\w*|wiel\w*|rem|pomp|ventilat\w*|accu|frein|pompe)\b/;

/** In order: the first that fits wins. Trims come before sensors, as "trim of sensor 1" is a trim. */
const rules: readonly Rule[] = [
  {
    role: "short-trim",
    says: /\bs ?t ?f ?t\w*|\bshrt ?ft\w*|\bshort ?ft\w*|short ?(term)? ?(fuel)? ?(trim|corr)|\bshrtft|kurzzeit|trim\w* .*\bshort\b|kurzfrist|trim\w* court|court terme|corto plazo|breve termine|curto prazo|krotkoterminow\w*|korte termijn|(korrektur|corr\w*) kurz\w*|lambda ?(regler|integrator|correction|korrektur)|integrator/,
    units: ["%", "1"],
  },
  {
    role: "long-trim",
    says: /\bl ?t ?f ?t\w*|\blong ?ft\w*|long ?(term)? ?(fuel)? ?(trim|corr)|langzeit|trim\w* .*\blong\b|langfrist|trim\w* long|long terme|largo plazo|lungo termine|longo prazo|dlugoterminow\w*|lange termijn|(korrektur|corr\w*) lang\w*|gemisch ?adaption|adaptation/,
    units: ["%", "1"],
  },
  {
    role: "fuel-status",
    says: /fuel ?sys\w*|fuel ?(system)? ?(status|state|loop)|\b(open|closed) ?(\/| or )?(closed)? ?loop|loop ?(status|state|mode)|\bloop\b|regel ?(status|kreis)|etat .*(carburant|boucle)|(estado|status|stato) .*(combusti\w+|lazo|bucle|malha|carburante)|status .*(paliw\w*|brandstofsyste\w*)|stan (ukladu|petli) paliw\w*|kraftstoffsystem/,
    unless: /press|rail|level|temp|rate/,
    units: ["1", "bit", "bits", "code", "status", "hex", "text", "enum"],
  },
  {
    role: "catalyst-temp",
    says: /\b(cat|kat|catalyst|catalytic|catalyseur|catalizador|catalisador|catalizzatore|katalysator|katalizator)\w*\b.*\b(temp\w*|t)\b|\btemp\w*\b.*\b(cat|kat|catalyst|catalyseur|catalizador|catalisador|catalizzatore|katalysator|katalizatora?)\b|cattemp|kattemp|katalysatortemp/,
    units: ["degC"],
  },
  {
    role: "coolant-temp",
    says: /coolant|\bect\b|\bclt\b|kuhlmittel|kuehlmittel|kuhlwasser|koel\w*|refroid|refrigerante|anticongelante|water temp|engine temp|motor ?temp|temp\w* ?(de l |del |da |de |do |du )?(eau|agua|acqua|motore?|moteur|plynu|silnika)|arrefec\w*|raffredd\w*|chlodz\w*|chlodziw\w*|\beau\b|\b(to?|temp\w*) (du |de |del )?liquid[eo]\b/,
    unless:
      /pressure|level|pression|niveau|nivel|debit|\b(liquid[eo]|huile) (de |d )?(frein|boite|direction|embrayage|lave)/,
    units: ["degC"],
  },
  {
    role: "air-flow",
    says: /\bmaf\w*|mass ?air|air ?mass|air ?flow|luft ?masse\w*|lucht ?mas?sa\w*|debit ?(massique |de |d ?)*air|caudal|(masa|flujo) (de )?aire|portata|massa (de |d )?ari?a?\b|(fluxo|vazao) (de )?(massa de )?ar\b|(przeplyw|masa) powietrza|lmm\b/,
    unless: /volt|freq|temp/,
    units: ["g/s"],
  },
  {
    role: "throttle",
    says: /throttle|\btps\b|\btp\b|\bthr\b|drossel\w*|papillon|mariposa|gasklep\w*|smoorklep\w*|acelerador|farfalla|borboleta|przepustnic\w*/,
    unless: /motor|pedal|temp|relative|adapt|ctrl|control/,
    units: ["%"],
  },
  {
    role: "engine-speed",
    says: /\brpm\b|speed of (the )?engine|engine ?(speed|rev\w*|rpm)|engine ?drehzahl|motor ?drehzahl|drehzahl|regime|regimen|revoluciones|\brevs?\b|\bgiri\b|rotac(ao|oes)|\bobrot\w*|predkosc (obrotowa|silnika)|motor ?speed|\bn ?(mot|eng)\b|\w*toerental/,
    unless: /pedal/,
    units: ["1/min"],
  },
  {
    role: "road-speed",
    says: /vehicle ?spe?e?d|car ?speed|road ?speed|\bvss\b|\bspeed\b|geschwindigkeit|\w*snelheid\b|\btempo\b|vitesse|velocidad|velocita|predkosc|\bgps ?speed/,
    unless: /engine|motor|idle|obrot|silnik/,
    units: ["km/h"],
  },
  {
    role: "manifold-pressure",
    says: /\bmap\b|manifold|saugrohr\w*|intake ?(abs\w*)? ?press\w*|press?\w* (de |del |do |di |d |w )*(admiss?[ai]on?|admissao|collecteur|colett?or|colector|collettore|multiple|aspirazione)|cisnienie (w )?(kolektor\w*|dolot\w*|ssan\w*)|inlaat\w*druk/,
    unless: /temp|volt/,
    units: ["kPa"],
  },
  {
    role: "engine-load",
    says: /engine ?load|calc\w* ?(engine)? ?load|abs\w* ?load|\bload\b|motorlast|motorbelasting|\blast\b|charge( moteur| calc\w*)?\b|\bcarga\b|\bcarico\b|obciazenie/,
    unless: /electric|fuel|pedal/,
    units: ["%"],
  },
];

const notASensor =
  /\bnox\b|stick ?oxid\w*|camera|kamera|supply|versorgung|alimenta\w*|battery|batterie|\bref\w*\b|schalter|switch|light|lamp\w*|door|brake|wiper|parking|radar|lidar|heat\w*|heiz\w*|chauff\w*|calef\w*|riscald\w*|aquec\w*|grzal\w*|ogrzew\w*|verwarm\w*|zasilan\w*|voeding\w*|resist\w*|\bmonitor(?!sonde)|\btemp\w*|duty|\btest\b|pressure|press\b|druck|knock|map\b|\bmaf\b|throttle|\btps\b|\btrim|left|right|position|level|\bcount/;
const frontWords =
  /\b(front|vorn\w*|voor\w*|upstream|up ?stream|pre|before|vor|amont|avant|anteriore?|delantera|dianteira|przedni\w*|aguas arriba|monte|montante|primary|regelsonde)\b|pre ?cat|vor ?kat\w*|\bv ?kat\b|o2 up\b|antes d(el?|o) cat|\bprzed kat|\bprima del cat/;
const rearWords =
  /\b(rear|hinten|hinter|achter\w*|downstream|down ?stream|post|after|behind|nach|aval|apres|arriere|posteriore?|trasera|traseira|tyln\w*|aguas abajo|valle|jusante|secondary|monitorsonde|diagnosesonde)\b|post ?cat|nach ?kat\w*|\bn ?kat\b|o2 down\b|\bna ?kat\w*|\bsonde na\b|(despues|depois) d(el?|o) cat|\ba?pos (o )?cat|\bza kat|\bdopo il cat/;
const sensorWords =
  /\b(h?o2s?|o2 ?sens\w*|oxygen|oxy|lambda\w*|sauerstoff\w*|zuurstof\w*|oxygene|oxigeno|oxigenio|ossigeno|tlen\w*|sond[aey]|zirconia|zro2|narrow ?band)\b|\b\w*sonde\b|lambdasonde|\bh?o2s?\d+\b/;
const wideWords =
  /\bwide ?(band|range)\b|breitband\w*|\bafr\b|\ba f\b|\bair fuel\b|equivalence|\bequiv\b|\bphi\b|\blambda\b|\bwb\b|λ/;

/** Of a measured mixture, where nobody says "sensor". */
const mixtureWords = /\bafr\b|\ba f\b|\bair fuel\b|\bwide ?band\b/;

/**
 * Role and bank from a channel's name and the unit its file writes. "other" where the name does not say.
 * Sensors 3 and 4, rear wide-band sensors, heaters, and wanted rather than measured values are "other".
 */
export function roleNamedBy(name: string, fileUnit: string): NamedRole {
  const words = wordsOf(name);
  const bank = bankOf(words);
  if (wanted.test(words)) return { role: "other", bank };
  const unit = fileUnit.trim() === "" ? "" : conversionOf(fileUnit).unit;
  const rule = rules.find(
    ({ says, unless, units }) => fits(says, words, unless) && (unit === "" || units.includes(unit)),
  );
  if (rule && !elsewhere.test(words)) return { role: rule.role, bank };
  return { role: sensorRole(words, unit), bank };
}

const fits = (says: RegExp, words: string, unless?: RegExp): boolean => says.test(words) && !unless?.test(words);

function sensorRole(words: string, unit: string): Role {
  if (unit === "mA") return pumpRole(words);
  if (notASensor.test(words) || elsewhere.test(words) || !["", "V", "1"].includes(unit)) {
    return unit === "1/min" && !elsewhere.test(words) && /motor|engine|^n$/.test(words) ? "engine-speed" : "other";
  }
  const place = placeOf(words);
  const wide =
    unit === "1" || (unit !== "V" && wideWords.test(words) && !/volt|spann|tens(ion|ao)|napiecie/.test(words));
  const isSensor = place !== "unsaid" || sensorWords.test(words) || mixtureWords.test(words);
  if (wide)
    return isSensor && place !== "rear" && place !== "further" && wideWords.test(words) ? "front-lambda" : "other";
  if (place === "front") return "front-o2";
  return place === "rear" ? "rear-o2" : "other";
}

/** A current is the pump current of a wide-band sensor, where the name speaks of one; behind the catalyst none is known. */
function pumpRole(words: string): Role {
  const place = placeOf(words);
  const isSensor = sensorWords.test(words) || wideWords.test(words);
  const isElse =
    /heat\w*|heiz\w*|chauff\w*|calef\w*|injector|solenoid/.test(words) || elsewhere.test(words.replace(/\bpump\b/, ""));
  return isSensor && !isElse && place !== "rear" && place !== "further" ? "front-lambda" : "other";
}

type Place = "front" | "rear" | "further" | "unsaid";

function placeOf(words: string): Place {
  const number = sensorNumber(words);
  if (number !== null) return number === 1 ? "front" : number === 2 ? "rear" : "further";
  if (frontWords.test(words)) return "front";
  return rearWords.test(words) ? "rear" : "unsaid";
}

/** The 1 of "b2 s1", "sensor 1", "sonde 1", "o2s21", "o2 1". */
function sensorNumber(words: string): number | null {
  const said =
    /\bb(?:ank)? ?\d ?s(?:ensor|ens)? ?(\d)\b/.exec(words) ??
    /\b(?:h?o2s?|o2 ?sens\w*) ?[12] ([1-4])\b/.exec(words) ??
    /\bs(?:ensor|ens|onde|onda) ?(\d)\b/.exec(words) ??
    (sensorWords.test(words) ? /\bs ?(\d)\b/.exec(words) : null) ??
    /\b(?:h?o2s?|o2 ?sens\w*|sensor) ?[12]([1-4])\b/.exec(words) ??
    /\b(?:h?o2s?|o2 ?sens\w*|oxygen|lambda|lambdasonde|lambdasonda) ?([1-4])\b/.exec(words);
  return said ? Number(said[1]) : null;
}

function bankOf(words: string): Bank | null {
  const said =
    /\bb(?:ank|anc|anco|ancada|k)? ?([12]) ?(?:s\w* ?\d)?\b/.exec(words) ??
    /\b([12]) bank\b/.exec(words) ??
    /\b(?:zylinderbank|zylinderreihe|reihe|rangee) ?([12])\b/.exec(words) ??
    /\b(?:h?o2s?|o2 ?sens\w*|sensor) ?([12])[1-4]\b/.exec(words) ??
    /\b(?:h?o2s?|o2 ?sens\w*) ?([12]) [1-4]\b/.exec(words) ??
    /\b(?:stft|ltft|shrtft|shortft|longft) ?([12])\b/.exec(words);
  return said ? (said[1] === "2" ? 2 : 1) : null;
}

/** Lower case, no accents, blanks for punctuation and between the parts of camelCase. */
export function wordsOf(name: string): string {
  const plain = name
    .replace(/([a-z])([A-Z][a-z])/g, "$1 $2")
    .normalize("NFKD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase()
    .replace(/ß/g, "ss")
    .replace(/ł/g, "l")
    .replace(/ı/g, "i")
    .replace(/ø/g, "o");
  return inEnglish(plain)
    .replace(/[^a-z0-9λ]+/g, " ")
    .replace(/\b(o2|ho2s|o2s) ?(b\d)/g, "$1 $2")
    .replace(/(?<=\b(?:sensor|oxygen|bank|\w*sond[aey]) )n[or] ?(?=\d\b)/g, "")
    .trim();
}
