/** A size by its label, with its area in mm². */
export type SizeOnSale = readonly [label: string, areaMm2: number];

/**
 * The sizes that stockists keep, thinnest first: those of `stockedSizes`, to which a test holds them. Written out here so that the page need not load the wire
 * tables before its first picture.
 */
export const sizesOnSale: Readonly<Record<"AWG" | "mm²", readonly SizeOnSale[]>> = {
  AWG: [
    ["18 AWG", 0.823047],
    ["16 AWG", 1.3087],
    ["14 AWG", 2.08091],
    ["12 AWG", 3.30877],
    ["10 AWG", 5.26115],
    ["8 AWG", 8.36556],
    ["6 AWG", 13.3018],
    ["4 AWG", 21.1506],
    ["2 AWG", 33.6308],
    ["1 AWG", 42.4077],
    ["1/0 AWG", 53.4751],
    ["2/0 AWG", 67.4309],
    ["3/0 AWG", 85.0288],
    ["4/0 AWG", 107.219],
    ["250 kcmil", 126.67686977437442],
    ["300 kcmil", 152.01224372924932],
    ["350 kcmil", 177.3476176841242],
    ["400 kcmil", 202.68299163899908],
    ["500 kcmil", 253.35373954874885],
  ],
  "mm²": [
    ["0.5 mm²", 0.5],
    ["0.75 mm²", 0.75],
    ["1 mm²", 1],
    ["1.5 mm²", 1.5],
    ["2.5 mm²", 2.5],
    ["4 mm²", 4],
    ["6 mm²", 6],
    ["10 mm²", 10],
    ["16 mm²", 16],
    ["25 mm²", 25],
    ["35 mm²", 35],
    ["50 mm²", 50],
    ["70 mm²", 70],
    ["95 mm²", 95],
    ["120 mm²", 120],
    ["150 mm²", 150],
    ["185 mm²", 185],
    ["240 mm²", 240],
  ],
};
