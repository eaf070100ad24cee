package arrows

// Floors are the rules for every system the module is built for.
var Floors = []Rule{
	{
		Why:    "geometry knows nothing of what is built on it",
		From:   []string{"./geometry/..."},
		Forbid: []string{"./pattern/...", "./wasm/...", "./web/..."},
		Tests:  true,
	},
	{
		Why:    "pattern knows nothing of a screen",
		From:   []string{"./pattern/..."},
		Forbid: []string{"./wasm/...", "./web/..."},
		Tests:  true,
	},
	{
		Why:    "the programs know nothing of the page that shows them",
		From:   []string{"./wasm/..."},
		Forbid: []string{"./web/..."},
	},
	{
		Why:    "web knows nothing of polygons",
		From:   []string{"./web/..."},
		Forbid: []string{"./geometry/...", "./pattern/...", "./wasm/..."},
	},
	{
		Why:    "ebiten and syscall/js are used below wasm only",
		From:   []string{"./..."},
		But:    []string{"./wasm/..."},
		Forbid: []string{"github.com/hajimehoshi/ebiten/...", "syscall/js"},
		Tests:  true,
	},
	{
		Why:   "symmetry, letters, and telling how far work has come, stand on geometry at the most",
		From:  []string{"./pattern/symmetry", "./pattern/letters", "./pattern/progress"},
		Allow: []string{"./geometry/..."},
	},
	{
		Why:   "a colouring stands on the plane groups alone, and what finds colourings on it",
		From:  []string{"./pattern/colouring", "./pattern/colouring/subgroups"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern/colouring"},
	},
	{
		Why:   "the draft stands on symmetry, colourings and geometry alone",
		From:  []string{"./pattern/draft"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern/colouring"},
	},
	{
		Why:  "commands, history and layout stand on the draft, symmetry, colourings, geometry and plain letters alone",
		From: []string{"./pattern"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern/colouring", "./pattern/draft",
			"./pattern/letters"},
	},
	{
		Why:   "recognition and folding stand on the draft, symmetry, colourings and geometry alone",
		From:  []string{"./pattern/recognise", "./pattern/fold"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern/colouring", "./pattern", "./pattern/draft"},
	},
	{
		Why:   "pictures and SVG drawings are read to outlines by rooms that know neither each other nor the draft",
		From:  []string{"./pattern/outline", "./pattern/scan", "./pattern/svgin"},
		Allow: []string{"./geometry/...", "./pattern/outline", "./pattern/progress"},
	},
	{
		Why:  "what reads either kind of drawing stands on the two that do",
		From: []string{"./pattern/trace"},
		Allow: []string{"./geometry/...", "./pattern/outline", "./pattern/scan", "./pattern/svgin",
			"./pattern/progress"},
	},
	{
		Why:  "soundness and links stand on the draft, symmetry and geometry alone",
		From: []string{"./pattern/sheet", "./pattern/link"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/progress"},
	},
	{
		Why:  "the check of the whole panel stands on the live one and what that stands on",
		From: []string{"./pattern/sheet/panel"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/sheet",
			"./pattern/progress"},
	},
	{
		Why:  "what is said of a sheet stands on what a check reports, and on no check",
		From: []string{"./pattern/sheet/sentences"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/sheet"},
	},
	{
		Why:  "the whole panel in every frame stands on the live check, and unites nothing",
		From: []string{"./pattern/sheet/whole"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/sheet"},
		Forbid: []string{"./pattern/sheet/panel", "./geometry/offset/..."},
	},
	{
		Why:  "ties and mends stand on the check and what that stands on",
		From: []string{"./pattern/sheet/ties", "./pattern/sheet/mends"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/sheet",
			"./pattern/sheet/panel", "./pattern/sheet/ties", "./pattern/progress"},
	},
	{
		Why:   "a QR code knows nothing of what it holds",
		From:  []string{"./pattern/qr"},
		Allow: []string{},
	},
	{
		Why:   "paper and PDF know nothing of what is drawn on them",
		From:  []string{"./pattern/paper", "./pattern/paper/pdf"},
		Allow: []string{"./geometry/...", "./pattern/letters"},
	},
	{
		Why: "full-scale pages stand on the draft, PDF and units alone, so that a study can be printed of what does " +
			"not " +
			"hold",
		From: []string{"./pattern/study/pages"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/appearance", "./pattern/paper",
			"./pattern/paper/pdf", "./pattern/letters", "./pattern/measure", "./pattern/progress"},
	},
	{
		Why:   "how colours look stands on the draft alone",
		From:  []string{"./pattern/appearance"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern/draft", "./pattern/colouring"},
	},
	{
		Why:   "units know nothing of what is measured",
		From:  []string{"./pattern/measure"},
		Allow: []string{"./pattern/sheet"},
	},
	{
		Why:  "a machine knows plans, and no file and no paper",
		From: []string{"./pattern/machine"},
		Forbid: []string{"./pattern/cutfile", "./pattern/paper/...", "./pattern/study/...", "./pattern/jobsheet",
			"./pattern/link"},
	},
	{
		Why:  "what is cut is planned without knowing a file, and what is printed or sent, or how a drawing came in",
		From: []string{"./pattern/cutplan"},
		Forbid: []string{"./pattern/cutfile", "./pattern/paper/...", "./pattern/study/...", "./pattern/jobsheet",
			"./pattern/link", "./pattern/outline", "./pattern/scan", "./pattern/svgin", "./pattern/trace"},
	},
	{
		Why:  "what is cut does not know what is printed or sent, nor how a drawing came in",
		From: []string{"./pattern/cutfile"},
		Forbid: []string{"./pattern/study/...", "./pattern/jobsheet", "./pattern/link", "./pattern/outline/...",
			"./pattern/scan", "./pattern/svgin", "./pattern/trace"},
	},
	{
		Why:  "how the panel lies on the canvas stands on geometry and the check's units",
		From: []string{"./wasm/editor/desk/view"},
		Allow: []string{"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/sheet"},
	},
	{
		Why:  "the editor's sentences know no canvas, no pointer and no session",
		From: []string{"./wasm/editor/desk/say"},
		Allow: []string{
			"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/sheet",
			"./pattern/sheet/sentences", "./pattern/appearance",
		},
	},
	{
		Why: "the modes of the pointer, and the signs, know neither each other nor the session that they work on",
		From: []string{
			"./wasm/editor/desk/copies", "./wasm/editor/desk/ties", "./wasm/editor/desk/pen",
			"./wasm/editor/desk/brush",
			"./wasm/editor/desk/subjects",
			"./wasm/editor/desk/signs",
		},
		Allow: []string{
			"./geometry/...", "./pattern/symmetry", "./pattern", "./pattern/draft",
			"./pattern/colouring", "./pattern/sheet",
			"./wasm/editor/desk/view",
		},
	},
}

// Draftless is the rule for what never needs a draft: curves drawn by hand, drawings read to outlines, paper and PDF,
// codes, progress, the plane groups.
var Draftless = Rule{
	Why: "what never needs a draft does not know one",
	From: []string{
		"./geometry/...", "./pattern/outline/...", "./pattern/scan", "./pattern/svgin", "./pattern/trace",
		"./pattern/paper/...", "./pattern/letters", "./pattern/qr", "./pattern/progress", "./pattern/symmetry",
		"./pattern/colouring/...",
	},
	Forbid: []string{"./pattern"},
	Tests:  true,
}

// Editor is the rule for what the editor links when it is built for the browser: nothing that would double its size and
// is not needed in every frame. The overlay is linked for ties alone, some 55 kB compressed: a silhouette's ties are
// taken off its outline when either has changed, and the page need not wait for the engine to see it.
var Editor = Rule{
	Why:  "the editor links no offset, image or file library and no search",
	From: []string{"./wasm/editor"},
	Forbid: []string{
		"github.com/tdewolff/canvas/...", "github.com/fogleman/gg/...",
		"./geometry/offset/...",
		"./pattern/outline/...", "./pattern/scan", "./pattern/svgin", "./pattern/trace", "./pattern/cutfile/...",
		"./pattern/study/...", "./pattern/fit", "./pattern/evenness", "./pattern/stepping", "./pattern/joined",
		"./pattern/nest", "./pattern/paint", "./pattern/colouring/subgroups", "./pattern/jobsheet",
		"./pattern/paper/...", "./pattern/qr",
		"image/png", "image/jpeg", "encoding/xml", "github.com/lucasb-eyer/go-colorful",
	},
	Library: true,
}
