/** Photographs and signatures by hand on a certificate: leaves behind the three that every one has. */
import type { Enclosed, HandSigned, Photo } from '../../job/enclosed.ts';
import { PAD, strokesPath } from '../../job/strokes.ts';
import { toBase64 } from '../../record/base64.ts';
import type { PhotosByHash } from '../../record/job-file.ts';
import type { Catalogue } from '../../words/catalogue.ts';
import { cutAt } from '../cut.ts';
import { escapeXml as esc } from '../escape.ts';
import { utcText } from './facts.ts';

/** Photographs of a leaf: three rows of two. */
const PER_LEAF = 6;
/** More than these are counted, and lie in the record's file. */
const MOST_SHOWN = 12;
const MOST_NOTE = 120;

/** A signature as it was drawn, by our own path and nothing else. */
export const handSvg = ({ strokes, name }: HandSigned): string =>
  `<svg class="hand" viewBox="0 0 ${PAD.width} ${PAD.height}" role="img" aria-label="${esc(name)}"><path d="${strokesPath(strokes)}" fill="none" stroke="#000" stroke-width="7" stroke-linecap="round" stroke-linejoin="round"/></svg>`;

const cut = (text: string): string => cutAt(text.replaceAll('\n', ' '), MOST_NOTE);

function figure(photo: Photo, number: number, bytes: Uint8Array | undefined, words: Catalogue): string {
  const { CERTIFICATE: C } = words.certificate;
  const said = [
    C.photoTaken[photo.source](utcText(words, photo.utcMs)),
    ...(photo.by === '' ? [] : [photo.by]),
    ...(photo.original === null ? [] : [C.photoOriginal]),
    ...(photo.note === '' ? [] : [cut(photo.note)]),
  ];
  const picture =
    bytes === undefined
      ? `<p class="no-photo">${esc(C.photoMissing)}</p>`
      : `<img src="data:image/jpeg;base64,${toBase64(bytes)}" width="${photo.small.width}" height="${photo.small.height}" alt="${esc(C.photoOf(number, C.occasions[photo.occasion]))}">`;
  return `<figure>${picture}<figcaption><strong>${esc(C.photoOf(number, C.occasions[photo.occasion]))}</strong><br>${esc(said.join(' · '))}</figcaption></figure>`;
}

/** The insides of the leaves with photographs; none where there are none. */
export function photoLeaves(
  enclosed: Enclosed | null,
  photos: PhotosByHash,
  words: Catalogue,
): readonly string[] {
  const { CERTIFICATE: C } = words.certificate;
  const all = enclosed?.photos ?? [];
  const shown = all.slice(0, MOST_SHOWN);
  const leaves: string[] = [];
  for (let at = 0; at < shown.length; at += PER_LEAF) {
    const figures = shown
      .slice(at, at + PER_LEAF)
      .map((p, i) => figure(p, at + i + 1, photos.get(p.small.sha256), words));
    const last = at + PER_LEAF >= shown.length;
    const more =
      last && all.length > shown.length ? `<p>${esc(C.photosMore(all.length - shown.length))}</p>` : '';
    leaves.push(
      `<h2 class="big">${esc(C.photos)}</h2>\n<p class="small">${esc(C.photosNote)}</p>\n<div class="photos">${figures.join('')}</div>${more}`,
    );
  }
  return leaves;
}

/** The firm's mark and name in the head of each leaf; nothing where neither was there. */
export function firmHead(enclosed: Enclosed | null): string {
  const { firm = '', mark = null } = enclosed ?? {};
  if (firm === '' && mark === null) return '';
  const picture =
    mark === null
      ? ''
      : `<img class="mark" src="data:image/png;base64,${mark.png}" width="${mark.width}" height="${mark.height}" alt="">`;
  return `<span class="firm">${picture}${esc(firm)}</span>`;
}

/** Names with their initials; empty where nobody was chosen. */
export const presentText = (enclosed: Enclosed | null): string =>
  (enclosed?.present ?? []).map((p) => `${p.name} (${p.initials})`).join(', ');
