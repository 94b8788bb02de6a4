// The part of fft.js that is used here; the package brings no types.
declare module 'fft.js' {
  export default class FFT {
    /** size: a power of two, 2 at least. */
    constructor(size: number);
    /** 2·size numbers: real and imaginary parts by turns. */
    createComplexArray(): number[];
    /** Writes the lines 0..size/2 of the spectrum of `size` real numbers. */
    realTransform(out: number[], data: ArrayLike<number>): void;
    /** From the lines of a spectrum to the samples, both complex. */
    inverseTransform(out: number[], data: ArrayLike<number>): void;
  }
}
