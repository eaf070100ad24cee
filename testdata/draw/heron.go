package main

// heronKnots is the heron, facing left, toes of the standing leg near (40, 0).
var heronKnots = []knot{
	along(-2.4, 88.5, 10), // bill
	along(15.6, 91.8, 13),
	along(24, 94.5, 4), // crown
	through(30.5, 93.2),
	along(38, 89.2, -33),
	along(47.8, 80.4, -54), // plume
	along(46.2, 79.2, 130),
	through(40.8, 84.6),
	turned(34.0, 87.0, 180, -80, 1.5),
	along(34.9, 80.6, -93),
	through(32.3, 72.6),
	along(30.0, 65.4, -92),
	along(36.6, 57.6, -24), // shoulder
	along(50, 52.2, -27),
	through(62, 43.6),
	turned(77, 27.4, -49, 156, 0.9), // tail
	turned(69.4, 32.2, 138, 236, 1.3),
	turned(65.6, 25.0, 246, 128, 0.95), // wing tip
	turned(60.4, 31.8, 130, 230, 1.3),
	turned(56.8, 27.8, 232, 126, 0.95),
	through(53.4, 33.4),
	turned(51.0, 36.0, 166, 256, 1.8), // standing leg
	along(48.6, 28, 266),
	along(48.7, 24.0, 268),
	along(47.6, 19.4, 262),
	along(46.4, 5.8, 267),
	turned(49.2, 3.2, -36, -12, 2),
	along(54.8, 1.7, -16),
	along(54.3, -0.4, 168),
	along(45, 0.7, 180),
	along(32.2, -1.1, 190),
	along(31.8, 1.0, 14),
	turned(43.2, 3.7, 22, 86, 2),
	along(44.9, 19.4, 84),
	along(45.6, 24.4, 90),
	along(45.3, 29, 90),
	turned(44.8, 37.4, 92, 180, 1.7),
	turned(40.8, 37.6, 180, 264, 1.7), // lifted leg
	along(40.3, 31, 268),
	turned(41.1, 25.7, 272, 205, 1.5),
	turned(26.9, 18.1, 206, 240, 3),
	through(22.7, 10.9),
	along(16.2, 3.9, 218),
	along(14.7, 5.5, 50),
	through(19.2, 12.6),
	turned(23.4, 19.8, 64, 28, 3),
	turned(37.2, 27.4, 27, 84, 2),
	through(36.8, 34),
	along(32.4, 41.4, 138), // belly
	turned(25.6, 50.4, 118, 252, 1.4),
	turned(22.6, 43.2, 246, 112, 0.95), // breast plumes
	through(18.6, 53.4),
	along(20.0, 62, 72),
	through(26, 72),
	along(29.6, 80, 90),
	through(26.8, 85.6),
	along(15, 88.0, 183),
	along(-2.4, 86.6, 185),
}

// heronScale makes the heron about 100 mm tall.
const heronScale = 1.05

func heron() (drawing, error) {
	return finish("heron", "Heron", trace(bend(heronKnots, func(p point) point { return p.times(heronScale) })),
		centroid, 200)
}
