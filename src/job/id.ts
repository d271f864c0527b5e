/** Identity of a document, a job or a run, as files, addresses and stores may carry it. */
export const ID = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/;
