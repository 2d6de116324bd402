/** For tests: the smallest JPEG that says its size, with what a camera writes beside its pixels. */

const segment = (marker: number, ...body: number[]): number[] => [
  0xff,
  marker,
  (body.length + 2) >> 8,
  (body.length + 2) & 255,
  ...body,
];
const letters = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

/** Place, remark and a second picture behind the first; base64. */
export function cameraJpeg(width: number, height: number): string {
  const size = [height >> 8, height & 255, width >> 8, width & 255];
  const bytes = [
    0xff,
    0xd8,
    ...segment(0xe1, ...letters('Exif\0\0GPS 52.0 N')),
    ...segment(0xfe, ...letters('owner: somebody')),
    ...segment(0xc0, 8, ...size, 1, 1, 0x11, 0),
    ...segment(0xda, 1, 1, 0, 0, 63, 0),
    0x12,
    0x34,
    0xff,
    0xd9,
    ...letters('GPS again'),
  ];
  return btoa(String.fromCharCode(...bytes));
}
