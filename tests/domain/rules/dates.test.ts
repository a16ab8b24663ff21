import { testRuleCases } from "../rule-cases.ts";

testRuleCases("dateFaults() wants the end no earlier than the start", [
  ["/neededBy", "2025-09-01", "2025-08-31", '/neededBy  "2025-08-31"  not before the start, 2025-09-01'],
]);
