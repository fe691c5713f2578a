/**
 * Of the contract over HTTP and sockets (Semantic Versioning 2.0.0): a third number for words, a second for what is added, the
 * first when something that is marked stable is taken away or means something else.
 */
export const API_VERSION = '1.0.0';
