/** Tilt as the live input tells it: what plays now, and each reading that has settled. */
import { signal } from '@preact/signals';
import type { SideDocument } from '../../core/advise/document.ts';
import { hasSettled, type SettledTilt, type TiltReading, tiltReading } from '../../core/advise/live/tiltGuide.ts';
import type { LiveStatus } from './liveMessages.ts';

export class TiltFeed {
  /** from the band that plays and the last of its partner; the last one told while nothing plays */
  readonly now = signal<TiltReading | null>(null);
  /** a band plays that tells the tilt */
  readonly isPlaying = signal(false);
  /** s since the partner's last reading; null without one */
  readonly partnerAgeS = signal<number | null>(null);
  /** s since the headshell was turned in the band that plays; null where it was not */
  readonly turnedAgoS = signal<number | null>(null);
  /** by bands that are over, those of passes before among them */
  readonly settled = signal<readonly SettledTilt[]>([]);
  private band = -1;
  private latest: SettledTilt | null = null;

  reset(): void {
    this.now.value = null;
    this.isPlaying.value = false;
    this.partnerAgeS.value = null;
    this.turnedAgoS.value = null;
    this.settled.value = [];
    this.band = -1;
    this.latest = null;
  }

  hear({ playing, pass }: Pick<LiveStatus, 'playing' | 'pass'>): void {
    // a lateral tone tells nothing new of it
    const tells = playing !== null && (playing.band.motion === 'left' || playing.band.motion === 'right');
    const reading = tells ? tiltReading(playing.figures) : null;
    const band = playing === null ? -1 : playing.band.index;
    if (band !== this.band) this.file();
    this.band = band;
    this.isPlaying.value = reading !== null;
    this.turnedAgoS.value = playing?.turnedAgoS ?? null;
    if (reading === null || playing === null) return;
    const tilt = playing.figures.findings.find(({ quantity }) => quantity === 'azimuth-error');
    const bands = (tilt?.bands ?? []).map((index) => `pass ${pass?.number ?? 0}, band ${index}`);
    this.latest = { ...reading, bands };
    this.now.value = reading;
    this.partnerAgeS.value = playing.partnerAgeS;
  }

  /** A band that was cut short before its reading had settled is no reading. */
  private file(): void {
    if (this.latest !== null && hasSettled(this.latest)) this.settled.value = [...this.settled.value, this.latest];
    this.latest = null;
  }

  /** The whole pass is the better reading of what was told of it band by band; the arm may have been lifted in mid-band. */
  passEnded(document: SideDocument): void {
    const reading = tiltReading(document);
    this.file();
    this.band = -1;
    this.isPlaying.value = false;
    this.turnedAgoS.value = null;
    if (reading !== null) this.now.value = reading;
  }
}
