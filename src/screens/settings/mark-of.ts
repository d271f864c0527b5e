/**
 * A mark out of a file: drawn once through an image element, where a drawing's scripts and addresses are dead, and
 * written anew as a small PNG. Nothing of the file itself is kept.
 */
import { MARK_BOX, type Mark, MOST_MARK_BYTES, MOST_MARK_FILE, markSchema } from '../../job/mark.ts';

export type MarkRefusal =
  | 'large' // the file, or what is drawn of it
  | 'unread'; // no picture that this browser opens

/** Sides beyond this are not drawn, whatever the file says; px. */
const MOST_SIDE = 8000;

/** Kinds by their beginnings: a drawing, a PNG, a JPEG. */
async function kindOf(file: Blob): Promise<string | null> {
  const head = new Uint8Array(await file.slice(0, 4096).arrayBuffer());
  if (head[0] === 0x89 && head[1] === 0x50) return 'image/png';
  if (head[0] === 0xff && head[1] === 0xd8) return 'image/jpeg';
  return /<svg[\s>]/i.test(new TextDecoder().decode(head)) ? 'image/svg+xml' : null;
}

/** A PNG's or JPEG's size from its header; a drawing has none that costs anything before it is drawn. */
async function isHuge(file: Blob, kind: string): Promise<boolean> {
  if (kind !== 'image/png') return false;
  const view = new DataView(await file.slice(0, 24).arrayBuffer());
  return view.byteLength < 24 || Math.max(view.getUint32(16), view.getUint32(20)) > MOST_SIDE;
}

async function base64Of(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = '';
  for (let i = 0; i < bytes.length; i += 0x8000)
    text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(text);
}

export async function markOf(file: Blob): Promise<Mark | MarkRefusal> {
  if (file.size > MOST_MARK_FILE) return 'large';
  const kind = await kindOf(file);
  if (kind === null) return 'unread';
  if (await isHuge(file, kind)) return 'large';
  // Under the kind that its bytes say, not the one that its name says.
  const url = URL.createObjectURL(new Blob([file], { type: kind }));
  try {
    const image = new Image();
    image.src = url;
    try {
      await image.decode();
    } catch {
      return 'unread';
    }
    // A drawing without a size of its own fills the box.
    const own = {
      width: image.naturalWidth || MARK_BOX.width,
      height: image.naturalHeight || MARK_BOX.height,
    };
    if (Math.max(own.width, own.height) > MOST_SIDE && kind !== 'image/svg+xml') return 'large';
    const fit = Math.min(MARK_BOX.width / own.width, MARK_BOX.height / own.height);
    // What is drawn by lines is as sharp as the box; a picture of points is not made larger.
    const share = kind === 'image/svg+xml' ? fit : Math.min(1, fit);
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.floor(own.width * share));
    canvas.height = Math.max(1, Math.floor(own.height * share));
    const context = canvas.getContext('2d');
    if (context === null) return 'unread';
    context.imageSmoothingQuality = 'high';
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    let png: Blob | null;
    try {
      png = await new Promise((resolve) => canvas.toBlob(resolve, 'image/png'));
    } catch {
      // A drawing that a browser holds for foreign gives no picture back.
      return 'unread';
    }
    if (png === null) return 'unread';
    if (png.size > MOST_MARK_BYTES) return 'large';
    const parsed = markSchema.safeParse({
      png: await base64Of(png),
      width: canvas.width,
      height: canvas.height,
    });
    return parsed.success ? parsed.data : 'unread';
  } finally {
    URL.revokeObjectURL(url);
  }
}
