// What code written for Node takes for granted, for the bundle that runs in a page.
export { Buffer } from 'buffer/';

export const process = {
  browser: true,
  env: {},
  version: '',
  nextTick: (call, ...args) => queueMicrotask(() => call(...args)),
};
