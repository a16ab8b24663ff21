import { z } from "zod";
import { noteSchema } from "../domain/scalars.ts";

/** Why a revision was written. */
export const revisionNoteSchema = noteSchema
  .min(1, "a note has at least one character")
  .meta({ description: "Why this revision was written." });

/** One revision of a project, without its document. */
export const revisionSchema = z
  .strictObject({
    revision: z.int().meta({ description: "Counts from 1." }),
    documentDigest: z.string().meta({ description: "SHA-256 of the document's canonical JSON (RFC 8785)." }),
    title: z.string(),
    author: z.string(),
    note: z.string().optional(),
    createdAt: z.iso.datetime(),
  })
  .meta({ id: "Revision", description: "Who wrote a revision, when and why." });
