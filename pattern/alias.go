package pattern

import "openwork/pattern/draft"

type (
	Draft      = draft.Draft
	Panel      = draft.Panel
	Field      = draft.Field
	Edge       = draft.Edge
	Repeat     = draft.Repeat
	Silhouette = draft.Silhouette
	Motif      = draft.Motif
	Sheet      = draft.Sheet
	Bed        = draft.Bed
	Tie        = draft.Tie
	PlaceError = draft.PlaceError
)

const (
	Crop           = draft.Crop
	Whole          = draft.Whole
	Touching       = draft.Touching
	Version        = draft.Version
	MaxDraftBytes  = draft.MaxDraftBytes
	MaxSilhouettes = draft.MaxSilhouettes
	MaxMotifs      = draft.MaxMotifs
	MaxPoints      = draft.MaxPoints
	MaxCellPoints  = draft.MaxCellPoints
	MaxText        = draft.MaxText
	MaxID          = draft.MaxID
	MinSize        = draft.MinSize
	MaxSize        = draft.MaxSize
	MinScale       = draft.MinScale
	MaxScale       = draft.MaxScale
	MaxPlace       = draft.MaxPlace
	MaxTurn        = draft.MaxTurn
	MinThick       = draft.MinThick
	MaxThick       = draft.MaxThick
	MaxKerf        = draft.MaxKerf
	MaxNarrow      = draft.MaxNarrow
	MaxTies        = draft.MaxTies
	MinTie         = draft.MinTie
	MaxTie         = draft.MaxTie
)

var (
	Default     = draft.Default
	Decode      = draft.Decode
	DecodeBytes = draft.DecodeBytes
)
