package contour

// cornerClearance in grid units: on the sides of the squares a line keeps this far from every sample, so that lines
// which pass on two sides of a sample stay apart and no ring touches itself. A hundredth of a pixel is far below what a
// picture can tell, and at 1,200 dpi still twice the draft's grid of 1e-4 mm.
const cornerClearance = 0.01
