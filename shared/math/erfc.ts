/** A complex number. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/**
 * Complementary error function of a real number, relative error below 1e-13 down to the smallest
 * representable result.
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.6 (series), 7.1.14 (continued fraction)
 */
export function erfc(x: number): number {
  return x < 0 ? 2 - erfcComplex(-x, 0).re : erfcComplex(x, 0).re;
}

/**
 * Complementary error function of z = re + i im, for arguments within 45 degrees of the positive real axis
 * (all that the Fresnel integrals and the normal distribution need).
 * @throws RangeError for an argument outside that sector
 */
export function erfcComplex(re: number, im: number): Complex {
  if (!(re >= 0 && Math.abs(im) <= re * (1 + 1e-12))) {
    throw new RangeError(
      `erfcComplex: ${re} + ${im}i is outside the sector of 45 degrees about the real axis`,
    );
  }
  // z^2, and exp(-z^2)/sqrt(pi), which both methods share.
  const re2 = re * re - im * im;
  const im2 = 2 * re * im;
  const scale = Math.exp(-re2) / Math.sqrt(Math.PI);
  const factor = { re: scale * Math.cos(im2), im: -scale * Math.sin(im2) };
  // Below this modulus the series loses no more than two digits; above it the fraction converges quickly.
  return re * re + im * im < 4
    ? oneMinus(multiply(factor, erfSeries(re, im, re2, im2)))
    : multiply(factor, erfcFraction(re, im, re2, im2));
}

/** Sum of 2 (2 z^2)^n z/(1 3 5 .. (2n+1)), which times exp(-z^2)/sqrt(pi) is erf(z). */
function erfSeries(re: number, im: number, re2: number, im2: number): Complex {
  let termRe = 2 * re;
  let termIm = 2 * im;
  let sumRe = termRe;
  let sumIm = termIm;
  for (let n = 1; n < 200; n++) {
    const step = 2 / (2 * n + 1);
    const nextRe = (termRe * re2 - termIm * im2) * step;
    termIm = (termRe * im2 + termIm * re2) * step;
    termRe = nextRe;
    sumRe += termRe;
    sumIm += termIm;
    if (Math.abs(termRe) + Math.abs(termIm) < 1e-17 * (Math.abs(sumRe) + Math.abs(sumIm))) break;
  }
  return { re: sumRe, im: sumIm };
}

/** 2z/(2z^2 + 1 - 1*2/(2z^2 + 5 - 3*4/(2z^2 + 9 - ...))), evaluated from the far end. */
function erfcFraction(re: number, im: number, re2: number, im2: number): Complex {
  let tailRe = 0;
  let tailIm = 0;
  for (let n = 60; n >= 0; n--) {
    const denominatorRe = 2 * re2 + 4 * n + 1 - tailRe;
    const denominatorIm = 2 * im2 - tailIm;
    const norm = denominatorRe * denominatorRe + denominatorIm * denominatorIm;
    // The last step keeps the bare reciprocal; each earlier one carries the numerator of the level above it.
    const numerator = n === 0 ? 1 : (2 * n - 1) * (2 * n);
    tailRe = (numerator * denominatorRe) / norm;
    tailIm = (-numerator * denominatorIm) / norm;
  }
  return multiply({ re: 2 * re, im: 2 * im }, { re: tailRe, im: tailIm });
}

function multiply(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

function oneMinus(a: Complex): Complex {
  return { re: 1 - a.re, im: -a.im };
}
