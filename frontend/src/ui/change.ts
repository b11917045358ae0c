// How a part of a book is changed: gives what is said against it, nothing where it was done. None where it can only be read.

import type { Edit } from "../core/edits";

export type Change = ((edit: Edit) => Promise<string>) | null;
