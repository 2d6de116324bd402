import type { NetworkInterfaceInfo } from 'node:os';
import { expect, it } from 'vitest';
import { lanAddresses } from './lanAddresses.ts';

const card = (address: string, internal = false): NetworkInterfaceInfo[] => [
  { address, netmask: '255.255.255.0', family: 'IPv4', mac: '02:00:00:00:00:00', internal, cidr: `${address}/24` },
];
const six = (address: string, scopeid = 0): NetworkInterfaceInfo => ({
  address,
  netmask: 'ffff:ffff:ffff:ffff::',
  family: 'IPv6',
  mac: '02:00:00:00:00:00',
  internal: false,
  cidr: `${address}/64`,
  scopeid,
});

it('offers addresses in private networks alone, those of homes and shops first', () => {
  const found = lanAddresses({
    lo: card('127.0.0.1', true),
    docker0: card('172.17.0.1'),
    eth1: card('10.0.0.7'),
    // link-local, global, then of a private network
    wlan0: [six('fe80::1', 3), six('2001:db8::1'), six('fd12:3456::20'), ...card('192.168.1.20')],
    docker1: [six('fd00::1')],
    only6: [six('fc00::7')],
    eth0: card('203.0.113.9'),
    eth2: card('172.32.0.1'),
    eth3: card('172.31.0.1'),
    gone: undefined as never,
  });
  expect(found).toEqual([
    { address: '192.168.1.20', name: 'wlan0' },
    { address: '10.0.0.7', name: 'eth1' },
    { address: '172.31.0.1', name: 'eth3' },
    { address: 'fd12:3456::20', name: 'wlan0' },
    { address: 'fc00::7', name: 'only6' },
  ]);
});
