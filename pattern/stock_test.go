package pattern

import (
	"testing"

	"openwork/pattern/draft"
)

// The generic words of five languages for stocks that no laser meets, and for some that it does.
func TestRefuseStock(t *testing.T) {
	for reason, stocks := range map[string][]string{
		"chlorine": {"PVC", "soft PVC", "PVC film", "pvc-u", "uPVC", "PVC foam board", "self-adhesive vinyl",
			"polyvinyl chloride", "Polyvinylchlorid", "polychlorure de vinyle", "vinyle adhésif",
			"policloruro de vinilo", "vinilo adhesivo", "cloruro di polivinile", "vinile adesivo",
			"chlorinated rubber", "neoprene", "Kunstleder", "faux leather", "similicuir", "polipiel", "similpelle",
			"PVC-Hartschaumplatte", "mousse de PVC", "PVC espumado", "PVC espanso", "Klebefolie", "Plotterfolie"},
		"polycarbonate": {"polycarbonate 1 mm", "Polycarbonat", "poly-carbonate", "policarbonato", "Polycarbonatplatte",
			"plaque de polycarbonate", "policarbonato alveolare"},
		"polystyrene": {"polystyrene", "Polystyrol", "polystyrène", "polystyrène expansé", "poliestireno",
			"polistirene", "polistirolo", "HIPS", "high-impact styrene", "XPS", "EPS 20 mm"},
		"foam": {"foam board", "foamboard 5 mm", "foam core", "Leichtschaumplatte", "Hartschaum", "Schaumstoffplatte",
			"carton mousse", "panneau de mousse rigide", "plaque expansée", "cartón pluma", "panel espumado",
			"cartone piuma", "pannello in schiuma", "pannello espanso"},
		"melts": {"ABS", "ABS plastic", "acrylonitrile butadiene styrene"},
		"fluor": {"PTFE film", "Polytetrafluorethylen"},
	} {
		for _, stock := range stocks {
			t.Run(reason+"/"+stock, func(t *testing.T) {
				if RefuseStock(stock, draft.Laser) == nil {
					t.Error("passes for the laser")
				}
				for _, how := range []draft.How{draft.Knife, draft.Waterjet} {
					if err := RefuseStock(stock, how); err != nil {
						t.Errorf("by %s: %v", how, err)
					}
				}
			})
		}
	}
	for _, stock := range []string{"polyester film", "Polyesterfolie", "film polyester", "lámina de poliéster",
		"foglio di poliestere", "absorbent card", "birch ply", "Birkensperrholz", "contreplaqué", "contrachapado",
		"compensato", "cast acrylic", "Acrylglas", "acrylique coulé", "metacrilato", "PVC-free film", "PVC-freie Folie",
		"film sans PVC", "sin PVC", "senza PVC", "chlorine-free board", "chlorfrei gebleichter Karton", "Karton",
		"cartón", "cartone", "stencil board", "polypropylene", "polyethylene foam sheet",
		"Klebefolie aus Polypropylen", "fluorescent acrylic", "steps of card", "brass", ""} {
		t.Run("passes/"+stock, func(t *testing.T) {
			if err := RefuseStock(stock, draft.Laser); err != nil {
				t.Error(err)
			}
		})
	}
}
