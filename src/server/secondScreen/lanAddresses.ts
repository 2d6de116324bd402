/** Where on the local network this machine can be reached: its addresses in private networks, the likeliest first. */
import type { NetworkInterfaceInfo } from 'node:os';

export interface LanAddress {
  readonly address: string;
  /** of the network card */
  readonly name: string;
}

/**
 * Private networks, those of homes and shops first: RFC 1918, and of IPv6 the unique local addresses (RFC 4193), last because
 * nobody types one. Global IPv6 addresses can be reached from outside where a router lets it; link-local ones need a zone, which no
 * browser takes in an address.
 */
const PRIVATE = [/^192\.168\./, /^10\./, /^172\.(1[6-9]|2\d|3[01])\./, /^f[cd][0-9a-f]{2}:/i];
/** Bridges to containers and virtual machines, and tunnels: nobody's phone is there. */
const INSIDE = /^(docker|br-|veth|virbr|vmnet|vboxnet|tun|tap|utun|wg|zt|tailscale)/;

/** @param cards as `os.networkInterfaces()` gives them */
export function lanAddresses(
  cards: Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>>,
): LanAddress[] {
  const found = Object.entries(cards).flatMap(([name, infos = []]) =>
    infos
      .filter(({ internal }) => !internal && !INSIDE.test(name))
      .map(({ address }) => ({ address, name, rank: PRIVATE.findIndex((network) => network.test(address)) })),
  );
  return found
    .filter(({ rank }) => rank >= 0)
    .sort((a, b) => a.rank - b.rank)
    .map(({ address, name }) => ({ address, name }));
}
