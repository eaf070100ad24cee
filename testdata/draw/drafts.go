package main

// drafts are those made here, by file name.
func drafts(d map[string]drawing) map[string]draft {
	return map[string]draft{
		"heron-over-carp": heronOverCarp(d["heron"], d["carp"]),
		"heron-with-room": heronWithRoom(d["heron"], d["carp"]),
		"moth-p4mm":       mothOnMirrors(d["moth"]),
		"leaf-p6mm":       leafSixfold(d["leaf"]),

		"scene-heron-before-carp": heronBeforeCarp(d["heron"], d["carp"]),
	}
}

// heronOverCarp is the draft of tests and measurements: herons upright, facing left and right by turns up each glide
// line, with carp swimming between them.
func heronOverCarp(heron, carp drawing) draft {
	d := newDraft("Heron over carp", repeat{"pg", 150, 108, 90})
	d.Silhouettes = []silhouette{heron.silhouette(), carp.silhouette()}
	d.Motifs = []motif{
		{ID: "m1", Silhouette: "heron", At: [2]float64{-50, -25.5}, Scale: 1},
		{ID: "m2", Silhouette: "carp", At: [2]float64{5.3, 42.6}, Turn: 30, Scale: 1, Mirrored: true},
	}
	return d
}

// heronWithRoom is the demonstration: the same herons and carp, each so far from all others that it can be dragged 16
// mm any way before it meets one.
func heronWithRoom(heron, carp drawing) draft {
	d := heronOverCarp(heron, carp)
	d.Repeat.A, d.Repeat.B = 208, 150
	d.Motifs[0].At = [2]float64{76.5, -35.4}
	d.Motifs[1].At = [2]float64{0.5, 33.1}
	return d
}

// mothOnMirrors puts a moth on a mirror of p4mm, so that copies lie on each other and a cell holds four, not eight.
func mothOnMirrors(moth drawing) draft {
	d := newDraft("Moth on mirrors", repeat{"p4mm", 120, 120, 90})
	d.Silhouettes = []silhouette{moth.silhouette()}
	d.Motifs = []motif{{ID: "m1", Silhouette: "moth", At: [2]float64{27.6, 27.6}, Turn: 135, Scale: 0.8}}
	return d
}

// leafSixfold is a cheap field for tests: twelve small leaves in a cell.
func leafSixfold(leaf drawing) draft {
	d := newDraft("Leaves, sixfold", repeat{"p6mm", 114, 114, 120})
	d.Silhouettes = []silhouette{leaf.silhouette()}
	d.Motifs = []motif{{ID: "m1", Silhouette: "leaf", At: [2]float64{39.9, 12.2}, Turn: 202, Scale: 1}}
	return d
}

// heronBeforeCarp is a scene that the empty bench offers: a heron six times its size stands before carp in p2gg, which
// run on behind it.
func heronBeforeCarp(heron, carp drawing) draft {
	d := newDraft("The heron before its carp", repeat{"p2gg", 150, 108, 90})
	d.Field.Edge = "whole"
	d.Silhouettes = []silhouette{carp.silhouette()}
	d.Motifs = []motif{{ID: "m1", Silhouette: "carp", At: [2]float64{25.8, 67.4}, Turn: -10.2, Scale: 1,
		Mirrored: true}}
	d.Subjects = []subject{{silhouette: heron.silhouette(), At: [2]float64{300, 440}, Scale: 6, Room: 8,
		Edge: "behind"}}
	return d
}
