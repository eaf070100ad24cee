package say

// GroupLine says what each group does, in one plain line.
var GroupLine = map[string]string{
	"p1":   "Repeated by moving only.",
	"p2":   "Half-turns about points.",
	"pm":   "Mirrored across upright lines.",
	"pg":   "Each row mirrored and moved half a cell up.",
	"cm":   "Mirrored, in rows that stand half a cell over.",
	"p2mm": "Mirrored both ways.",
	"p2mg": "Mirrored one way, half-turns between.",
	"p2gg": "Half-turns and glides both ways, no mirror.",
	"c2mm": "Mirrored both ways, in rows that stand half a cell over.",
	"p4":   "Quarter-turns.",
	"p4mm": "Quarter-turns with mirrors through them.",
	"p4gm": "Quarter-turns with mirrors between them.",
	"p3":   "Third-turns.",
	"p3m1": "Third-turns with mirrors through every one.",
	"p31m": "Third-turns, some of them off the mirrors.",
	"p6":   "Sixth-turns.",
	"p6mm": "Sixth-turns with mirrors: a kaleidoscope.",
}

// GroupAbout says what each group does, in three plain sentences for someone who has never heard of a glide: what is
// done to the silhouette; where mirrors and rotation points lie, as the cell stands in the Tables' setting with b
// upright; and what it is good for behind a picture, or what to mind when copies are fitted.
var GroupAbout = map[string][3]string{
	"p1": {
		"The silhouette is only moved, in two directions, and every copy looks the same way.",
		"There is no mirror, no glide and no rotation point anywhere.",
		"It is a calm ground with a clear direction, for birds on the wing or falling leaves, and a leaning cell " +
			"lets long shapes slide past each other.",
	},
	"p2": {
		"Every copy has partners that stand on their heads: the silhouette is given a half turn and moved.",
		"Half-turn points lie at the cell's corners, halfway along its sides and in its centre, and there is no " +
			"mirror.",
		"The ground reads the same with the panel upside down; look for thin bridges at the half-turn points, " +
			"where a copy meets its own turned image.",
	},
	"pm": {
		"The silhouette is reflected in a line, and it and its reflection are repeated in straight rows.",
		"Mirrors run upright, along the cell's sides and halfway between them, and there is no rotation point.",
		"It gives stiff pairs as on a coat of arms; keep a silhouette clear of the mirrors, or let a symmetrical " +
			"one stand on them.",
	},
	"pg": {
		"Each copy is followed by its reflection half a cell further up, as a left footprint follows a right one.",
		"Glide lines run upright, along the cell's sides and halfway between them, and there is no mirror and no " +
			"rotation point.",
		"It suits figures that climb or swim and face left and right alternately; watch the gap where a copy " +
			"passes its reflection.",
	},
	"cm": {
		"The silhouette is reflected in a line, and the pair is repeated half a cell over and half a cell up.",
		"Mirrors run upright, along the cell's sides and through its centre, with glide lines halfway between them.",
		"It covers a ground more evenly than pairs in straight rows, and a symmetrical silhouette set on a " +
			"mirror gives a plain half-drop.",
	},
	"p2mm": {
		"The silhouette is reflected left to right and top to bottom, so that four copies look at each other " +
			"across a crossing.",
		"Mirrors run upright and level, and every rotation point is a half-turn point where two of them cross.",
		"It looks like paper folded twice and cut; each copy has a quarter of the cell to itself and should not " +
			"cross a mirror unless it is symmetrical about it.",
	},
	"p2mg": {
		"The silhouette and its reflection make a pair, and the next pair beside it stands on its head.",
		"Mirrors run upright only, and the half-turn points lie midway between them, on level glide lines.",
		"Pairs point up and down alternately, which gives a ground that waves; look first at the half-turn " +
			"points, where neighbours meet.",
	},
	"p2gg": {
		"The silhouette appears four ways in each cell: upright, on its head, and both of these reflected.",
		"Glide lines run upright and level, the half-turn points lie between them, and there is no mirror.",
		"It scatters copies evenly without looking stiff, as herringbone does in a floor, and a long silhouette " +
			"fits in well when it is set aslant.",
	},
	"c2mm": {
		"The silhouette is reflected left to right and top to bottom, and the four copies are repeated half a " +
			"cell over and half a cell up.",
		"Mirrors run upright and level and cross in half-turn points, and further half-turn points lie off the " +
			"mirrors.",
		"A wall of bricks has this order; a silhouette that is symmetrical both ways, set on a crossing, gives a " +
			"plain half-drop.",
	},
	"p4": {
		"The silhouette is turned by quarters about a point, so that four copies go round it like the sails of a " +
			"windmill.",
		"Quarter-turn points lie at the cell's corners and in its centre, half-turn points halfway along its " +
			"sides, and there is no mirror.",
		"All its wheels go round the same way; near a quarter-turn point the copies read as wheels, further off " +
			"as an even scatter.",
	},
	"p4mm": {
		"The silhouette and its reflection are turned by quarters, so that eight copies stand about each " +
			"quarter-turn point.",
		"Mirrors run upright, level and along both diagonals, and every rotation point lies on some of them.",
		"It makes stars and tiled floors; each copy has only an eighth of the cell, a triangle shut in by " +
			"mirrors, so keep the silhouette small or symmetrical.",
	},
	"p4gm": {
		"Copies go round a point by quarter turns, and beside every such wheel stands its reflection, going " +
			"round the other way.",
		"Mirrors run along the diagonals only and cross in half-turn points, and the quarter-turn points lie off " +
			"the mirrors.",
		"It has the movement of wheels without all of it going one way round; leave room at the mirrors, where " +
			"two wheels meet.",
	},
	"p3": {
		"The silhouette is turned by thirds about a point, so that three copies go round it like the blades of a " +
			"propeller.",
		"Third-turn points lie at the cell's corners and in the middle of its two triangles, each of another " +
			"kind, and there is no mirror.",
		"It gives a ground with three directions and no top or bottom; turn the silhouette a little at a time to " +
			"even out the gaps about the three kinds of point.",
	},
	"p3m1": {
		"The silhouette and its reflection are turned by thirds, so that six copies stand about each third-turn point.",
		"Mirrors run three ways, and every rotation point lies where three of them cross.",
		"It is what three looking-glasses set in an equal-sided triangle show; keep a copy inside one such " +
			"triangle, or set a symmetrical one on its edge.",
	},
	"p31m": {
		"Three copies whirl about a point by third turns, and beside every such whirl stands its reflection, " +
			"whirling the other way.",
		"Mirrors run three ways and cross in the third-turn points at the cell's corners, and the other " +
			"third-turn points lie off the mirrors.",
		"The same silhouette makes whirls of three near the points off the mirrors and stars of six near the " +
			"corners, so move it about before you settle.",
	},
	"p6": {
		"The silhouette is turned by sixths, so that six copies stand round a point like petals, all leaning the " +
			"same way.",
		"Sixth-turn points lie at the cell's corners, third-turn points in its two triangles, half-turn points " +
			"halfway along its sides and in its centre, and there is no mirror.",
		"It makes rosettes that seem to spin; keep the silhouette a little way off the sixth-turn points, where " +
			"six copies come together.",
	},
	"p6mm": {
		"The silhouette and its reflection are turned by sixths, so that twelve copies stand about each " +
			"sixth-turn point.",
		"Mirrors run six ways, and every rotation point lies where some of them cross.",
		"A honeycomb has this order; each copy has only a twelfth of the cell, so keep the silhouette small, or " +
			"set a symmetrical one on a mirror.",
	},
}
