/** Who writes, in a service without a login. */
export const localAuthor = "local";
