import type { EstimateDocument, Finding } from "../domain/estimate-document.ts";
import { nameInSentence } from "../domain/name-in-sentence.ts";
import type { Operation } from "../domain/operation.ts";
import { operationPlaces } from "../domain/operation-places.ts";
import { placesOf } from "../domain/places.ts";
import type { Program } from "./program.ts";

/** An operation or a finding's work: where it stands and what to call it. */
export interface ItemPlace {
  /** As in `Item`. */
  readonly path: string;
  /** JSON Pointer. */
  readonly pointer: string;
  /** Made when asked for. */
  readonly words: () => string;
  readonly work: Operation | Finding;
}

/** The places of a program's items, in their order. */
export function itemPlaces({ document, items }: Program): ItemPlace[] {
  const all = [...operationsOf(document), ...findingsOf(document)];
  const places = new Map(all.map((place) => [place.path, place]));
  return items.map(({ path }) => places.get(path)!);
}

function operationsOf(document: EstimateDocument): ItemPlace[] {
  const { make, model } = document.vehicle;
  const names = new Map(document.parts.map(({ id, name }) => [id, name]));
  const plain = (name: string) => nameInSentence(name, [make, model]);
  return operationPlaces(document).map(({ pointer, list, entry }) => {
    const words = () => {
      const part = names.get(list.split("/")[0]!);
      return list === "whole" ? plain(entry.name) : `${plain(part!)}: ${plain(entry.name)}`;
    };
    return { path: `${list}/${entry.id}`, pointer, words, work: entry };
  });
}

function findingsOf({ findings, vehicle }: EstimateDocument): ItemPlace[] {
  return placesOf("/findings", findings).map(({ pointer, entry }) => ({
    path: `findings/${entry.id}`,
    pointer,
    words: () => `${nameInSentence(entry.name, [vehicle.make, vehicle.model])}: putting it right`,
    work: entry,
  }));
}
