import { isDocumentKind, parseDocument, parseReadingMap } from '../job/documents.ts';
import type { DocumentIssue } from '../job/issues.ts';
import type { Setup } from '../job/setup.ts';
import { parseSetup } from '../job/setup-schema.ts';
import type { StoredDocument } from '../record/stores/store.ts';
import { EngineError } from './errors.ts';
import type { MappedPort, PortChoice, SerialChoice } from './messages.ts';

function refused(what: string, [issue]: readonly DocumentIssue[]): EngineError {
  return new EngineError('bad-request', `${what} ${issue?.path ?? ''}: ${issue?.code ?? 'not one'}`);
}

/** @throws EngineError 'bad-request', with the first thing that is wrong */
export function checkSetup(input: unknown): Setup {
  const parsed = parseSetup(input);
  if (!parsed.ok) throw refused('setup', parsed.issues);
  return parsed.value;
}

/** @throws EngineError 'bad-request' where the map by which a port is to be read is none */
export const checkPort = (port: PortChoice): PortChoice =>
  port.kind === 'serial' ? checkSerial(port) : port;

export const checkSerial = (port: SerialChoice): SerialChoice =>
  port.map === undefined ? port : checkMapped({ ...port, map: port.map });

export function checkMapped(port: MappedPort): MappedPort {
  const parsed = parseReadingMap(port.map);
  if (!parsed.ok) throw refused('map', parsed.issues);
  return { ...port, map: parsed.value };
}

/**
 * What the job's rooms know how to check is checked here too: a bad document never comes to rest.
 * @throws EngineError 'bad-request', with the first thing that is wrong
 */
export function checkDocument(document: StoredDocument): StoredDocument {
  if (!isDocumentKind(document.kind)) return document;
  const parsed = parseDocument(document.kind, document.body);
  if (!parsed.ok) throw refused(document.kind, parsed.issues);
  return { ...document, body: parsed.value };
}
