import { describe, expect, it } from 'vitest';
import { ownHosts, type RequestMarks, trustOf } from './trust.ts';

const port = 4133;
const own: RequestMarks = {
  method: 'GET',
  path: '/api/jobs',
  host: '127.0.0.1:4133',
  origin: undefined,
  fetchSite: undefined,
};
const trusted = (marks: Partial<RequestMarks>, at = port) => trustOf({ ...own, ...marks }, at).trusted;

describe('who is answered', () => {
  it('the page itself, under each name of loopback', () => {
    for (const host of ownHosts(port)) {
      expect(trusted({ host, origin: `http://${host}`, fetchSite: 'same-origin', method: 'POST' }), host).toBe(true);
    }
    expect(ownHosts(port)).toEqual(['127.0.0.1:4133', 'localhost:4133', '[::1]:4133']);
  });

  it('a program that sends neither origin nor site', () => {
    expect(trusted({ method: 'DELETE' })).toBe(true);
    expect(trusted({ fetchSite: 'none' })).toBe(true);
  });

  it('a link on another page may lead to the bench page, and no further', () => {
    expect(trusted({ path: '/jobs/41/tilt', fetchSite: 'cross-site' })).toBe(true);
    expect(trusted({ path: '/', fetchSite: 'cross-site', method: 'POST' })).toBe(false);
    for (const path of ['/api', '/api/jobs', '/api/jobs/1/report']) {
      expect(trusted({ path, fetchSite: 'cross-site' }), path).toBe(false);
      expect(trusted({ path, fetchSite: 'same-site' }), path).toBe(false);
    }
  });
});

describe('who is not', () => {
  it('a name that its owner pointed at this machine', () => {
    for (const host of [
      undefined,
      '',
      'bench.example',
      'bench.example:4133',
      '127.0.0.1',
      '127.0.0.1:4134',
      '127.0.0.1:41330',
      '127.0.0.1.example:4133',
      'localhost.example:4133',
      'user@127.0.0.1:4133',
      '127.0.0.1:4133, bench.example',
      '0.0.0.0:4133',
      '2130706433:4133',
    ]) {
      expect(trusted({ host }), String(host)).toBe(false);
    }
    expect(trusted({ host: 'LOCALHOST:4133' })).toBe(true);
  });

  it('a page of another origin, also one on this machine', () => {
    for (const origin of [
      'null',
      '',
      'https://bench.example',
      'http://127.0.0.1',
      'http://127.0.0.1:3000',
      'https://127.0.0.1:4133',
      'http://127.0.0.1:4133.example',
      'http://127.0.0.1:4133/',
    ]) {
      expect(trusted({ origin, method: 'POST' }), origin).toBe(false);
      expect(trusted({ origin }), origin).toBe(false);
    }
  });

  it('says why in a sentence', () => {
    const trust = trustOf({ ...own, host: 'bench.example' }, port);
    expect(trust.trusted ? '' : trust.why).toMatch(/^This server answers only to its own address.*\.$/);
  });

  it('at port 80 a browser leaves the port out', () => {
    expect(trusted({ host: 'localhost', origin: 'http://localhost' }, 80)).toBe(true);
    expect(trusted({ host: 'localhost:80' }, 80)).toBe(true);
    expect(trusted({ host: 'localhost' })).toBe(false);
  });
});
