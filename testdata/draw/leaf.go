package main

// leafKnots is a small leaf on its stalk with one bite out of its upper edge.
var leafKnots = []knot{
	along(-14.8, -2.0, 22), // stalk
	turned(-9.0, 1.0, 26, 74, 2),
	through(-5.4, 6.4),
	through(0.4, 8.4),
	turned(5.2, 7.4, -20, 232, 0.8), // notch
	along(4.0, 4.0, 300),
	turned(8.8, 5.0, 40, -36, 0.8),
	through(12.0, 2.6),
	along(16.2, 0.3, -20),
	along(15.8, -1.5, 190),
	through(8.6, -4.2),
	through(0.4, -6.2),
	through(-5.8, -4.6),
	turned(-9.0, -1.8, 134, 202, 2),
	along(-14.1, -3.9, 204),
}

func leaf() (drawing, error) {
	return finish("leaf", "Leaf", trace(leafKnots), centroid, 60)
}
