/** Where on the local network this machine can be reached: its addresses in private networks, the likeliest first. */
import type { NetworkInterfaceInfo } from 'node:os';

export interface LanAddress {
  readonly address: string;
  /** of the network card */
  readonly name: string;
}

/** Private networks (RFC 1918), those of homes and shops first. */
const PRIVATE = [/^192\.168\./, /^10\./, /^172\.(1[6-9]|2\d|3[01])\./];
/** Bridges to containers and virtual machines, and tunnels: nobody's phone is there. */
const INSIDE = /^(docker|br-|veth|virbr|vmnet|vboxnet|tun|tap|utun|wg|zt|tailscale)/;

/** @param cards as `os.networkInterfaces()` gives them. Only IPv4: short enough to be typed. */
export function lanAddresses(
  cards: Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>>,
): LanAddress[] {
  const found = Object.entries(cards).flatMap(([name, infos = []]) =>
    infos
      .filter(({ family, internal }) => family === 'IPv4' && !internal && !INSIDE.test(name))
      .map(({ address }) => ({ address, name, rank: PRIVATE.findIndex((network) => network.test(address)) })),
  );
  return found
    .filter(({ rank }) => rank >= 0)
    .sort((a, b) => a.rank - b.rank)
    .map(({ address, name }) => ({ address, name }));
}
