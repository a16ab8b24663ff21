import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { PartClass } from "../domain/part-class.ts";
import type { Trade } from "../domain/vocabulary.ts";
import { operationsOf } from "./operations-of.ts";

interface Caution {
  readonly text: string;
  /** When any of these is in the document; nothing given: always. */
  readonly trades?: readonly Trade[];
  readonly classes?: readonly PartClass[];
  readonly shopsOnly?: boolean;
}

const cautions: readonly Caution[] = [
  {
    text: "Bright plating means hexavalent chromium (29 CFR 1910.1026: 5 µg/m³) and cyanide: a plating shop's work only.",
    trades: ["plating"],
  },
  {
    text: "Plating makes hardened fasteners, springs and axles brittle: fit new ones instead.",
    trades: ["plating"],
  },
  {
    text: "Blasting raises crystalline silica dust (29 CFR 1910.1053: 50 µg/m³).",
    trades: ["blasting"],
  },
  {
    text: "Old paint may hold lead (29 CFR 1910.1025); two-pack paint gives off isocyanates: air-fed hood (HSE, COSHH); stripper with methylene chloride is restricted (40 CFR 751).",
    trades: ["paint", "bodywork", "blasting"],
  },
  {
    text: "Brake and clutch linings may hold asbestos: neither blow nor brush them dry (29 CFR 1910.1001, appendix F).",
    classes: ["brake-shoes-or-pads", "clutch"],
  },
  { text: "The vapour in a fuel tank explodes: no hot work on it (HSE INDG314).", classes: ["fuel-tank"] },
  {
    text: "Identification plates: taking one off is an offence in many places unless it is lawfully refitted (for example 18 USC 511).",
  },
  { text: "Tyres go by their date; hoses and chains are fitted new." },
  {
    text: "Many places require a written estimate and the customer's consent before it is exceeded (for example California B&P 9884.9).",
    shopsOnly: true,
  },
  {
    text: "This estimates money; it certifies nothing as roadworthy. Local rules and licensed practice come first.",
  },
];

/** The cautions that bear on the work a document holds, most particular first. */
export function cautionsFor(document: EstimateDocument): string[] {
  const trades = new Set([...operationsOf(document), ...document.suppliers].map(({ trade }) => trade));
  const classes = new Set(document.parts.map((part) => part.class));
  return cautions
    .filter(
      (caution) =>
        (caution.trades?.some((trade) => trades.has(trade)) ?? true) &&
        (caution.classes?.some((partClass) => classes.has(partClass)) ?? true) &&
        (caution.shopsOnly !== true || document.shop !== undefined),
    )
    .map(({ text }) => text);
}
