import fc from 'fast-check';

/** The same draws for every fault, and no search for the smallest example: that it fails is all that is asked. */
fc.configureGlobal({ seed: 20_261_126, endOnFailure: true });
