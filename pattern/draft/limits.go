package draft

// What a draft may hold. Lengths in mm, angles in degrees. The ends lie beyond what the trade asks for (a panel the
// size of a wall, a sheet of foil or a board) and well inside what the arithmetic and the screen can carry.
const (
	MaxSilhouettes = 200
	MaxMotifs      = 500
	MaxSubjects    = 20
	MaxPoints      = 200000 // corners of all silhouettes and subjects together
	MaxCellPoints  = 4e6    // corners of all copies in one cell, some 35 bytes each while it is laid out
	MaxText        = 200    // characters of a title, a name or a stock
	MaxID          = 64     // characters

	MinSize, MaxSize   = 10.0, 20000.0 // sides of panel, sheet and bed
	MinScale, MaxScale = 0.001, 1000.0 // of a motif
	MaxPlace           = 1e6           // of a motif or of the field's origin, either way along x and y
	MaxTurn            = 1e6           // of a motif or the field, either way; beyond it a turn's digits are gone
	MinThick, MaxThick = 0.01, 50.0    // of a sheet
	MaxKerf            = 5.0           // above lies no beam
	MaxNarrow          = 100.0         // of the narrowest bridge and the narrowest opening asked for

	MaxRoom = 500.0 // round a subject

	MaxTies = 2000
	// width of a tie, and its least length: in the frame of a silhouette shown at MinScale or MaxScale
	MinTie, MaxTie = 1e-4, 1e5
)

// What the paint of a draft may hold.
const (
	MaxSwatches = 200
	MaxColours  = 24   // of one panel, each a plate of its own
	MaxBlock    = 24   // cells along a side of the block that copies are coloured by hand in
	MaxByHand   = 2000 // copies coloured by hand

	MaxWaste                 = 4.0     // parts of the paste that is laid
	MinDryOfWet, MaxDryOfWet = 0.05, 1 // what is left of a millilitre of wet paste
	MinDensity, MaxDensity   = 0.3, 10 // g/ml of wet paste
	MinTub, MaxTub           = 1.0, 1e5
)
