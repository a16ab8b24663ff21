/**
 * The one error the pure rooms throw: a broken rule, named by a stable code, with the values in the message.
 */
export class DomainError extends Error {
  readonly code: string;

  /**
   * @param code stable kebab-case name of the broken rule
   * @param message the rule and the values that broke it
   */
  constructor(code: string, message: string) {
    super(message);
    this.name = "DomainError";
    this.code = code;
  }
}
