import type { EstimateDocument } from "./estimate-document.ts";
import type { Fault } from "./fault.ts";
import { conditionFaults } from "./rules/conditions.ts";
import { dateFaults } from "./rules/dates.ts";
import { distributionFaults } from "./rules/distributions.ts";
import { findingFaults } from "./rules/findings.ts";
import { idFaults } from "./rules/ids.ts";
import { labourFaults } from "./rules/labour.ts";
import { loadingFaults } from "./rules/loadings.ts";
import { overheadFaults } from "./rules/overheads.ts";
import { pathFaults } from "./rules/paths.ts";
import { precedenceFaults } from "./rules/precedence.ts";
import { purchaseFaults } from "./rules/purchases.ts";
import { routeFaults } from "./rules/routes.ts";
import { sizeFaults } from "./rules/size.ts";
import { supplierFaults } from "./rules/suppliers.ts";

const rules: readonly ((document: EstimateDocument) => Fault[])[] = [
  sizeFaults,
  idFaults,
  dateFaults,
  distributionFaults,
  loadingFaults,
  conditionFaults,
  routeFaults,
  purchaseFaults,
  supplierFaults,
  labourFaults,
  precedenceFaults,
  findingFaults,
  overheadFaults,
  pathFaults,
];

/**
 * Finds every broken rule that takes more than one field to see.
 *
 * @param document of the right shape
 * @returns none when the document can be simulated
 */
export function documentFaults(document: EstimateDocument): Fault[] {
  return rules.flatMap((rule) => rule(document));
}
