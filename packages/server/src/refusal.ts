// What the server says instead of doing what it was asked: what is the matter, and what to do about it, in plain words.

export type RefusalStatus = 400 | 401 | 403 | 404 | 405 | 413 | 415 | 500 | 507;

/** Something that whoever asked can put right; it goes out as `{ error: { says, advice } }`. */
export class Refusal extends Error {
  readonly status: RefusalStatus;
  readonly says: string;
  readonly advice: string;

  constructor(status: RefusalStatus, says: string, advice: string) {
    super(`${says} ${advice}`);
    this.status = status;
    this.says = says;
    this.advice = advice;
  }
}

/** The code of an error of the file system, such as ENOENT. */
export const codeOf = (error: unknown): string | undefined => (error as { code?: string }).code;

/** What an error of the file system means to whoever asked for that path; any other error stays as it is. */
export function asRefusal(path: string, error: unknown): unknown {
  switch (codeOf(error)) {
    case 'ENOENT':
    case 'ENOTDIR':
      return new Refusal(404, `There is no ${path}.`, 'Look at its spelling; the list of files says what is there.');
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return new Refusal(403, `${path} may not be read or written by you.`, 'Change its permissions, or its folder’s.');
    case 'EISDIR':
      return new Refusal(403, `${path} is a folder.`, 'Name a file.');
    case 'ENAMETOOLONG':
      return new Refusal(400, 'The path is too long for this computer.', 'Use shorter names.');
    case 'ENOSPC':
    case 'EDQUOT':
      return new Refusal(507, `The disk is full: ${path} is as it was before.`, 'Make room, then save again.');
    default:
      return error;
  }
}
