declare const SENNIT_VERSION: string | undefined;

/** The version of this library; put in by the build. */
export const version: string = typeof SENNIT_VERSION === 'string' ? SENNIT_VERSION : '0.0.0-source';
