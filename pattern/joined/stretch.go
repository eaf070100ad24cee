package joined

import (
	"slices"
)

// stretch is a piece of a joint along which two parts meet.
type stretch struct {
	joint int // its number in Joints, from 0
	of    line
	from  float64 // along the joint's line
	to    float64
	parts [2]int // from 0: the left one or the lower one first
	level bool   // the joint runs from left to right
}

// Letter is what two parts carry where they meet.
type Letter struct {
	Letter string     `json:"letter"`
	Joint  int        `json:"joint"` // number of the joint in the list, from 1
	Parts  [2]int     `json:"parts"` // numbers: left and right of it, or below and above
	Level  bool       `json:"level"` // below and above
	At     [2]float64 `json:"at"`    // middle of the stretch, on the panel
	line   line
}

// stretches returns where parts meet, joint by joint, in the order of Joints.
func (j *Joined) stretches() []stretch {
	first := make([]int, len(j.strips)+1) // part of each strip
	for i := range j.strips {
		first[i+1] = first[i] + len(j.across[i]) - 1
	}

	var out []stretch
	n := 0
	for i, l := range j.upright {
		left, right := j.across[i], j.across[i+1]
		ends := []float64{0, l.length()}
		for _, c := range left[1 : len(left)-1] {
			ends = append(ends, c.after)
		}
		for _, c := range right[1 : len(right)-1] {
			ends = append(ends, c.before)
		}
		slices.Sort(ends)
		for k := 0; k+1 < len(ends); k++ {
			mid := (ends[k] + ends[k+1]) / 2
			parts := [2]int{first[i], first[i+1]}
			for _, c := range left[1 : len(left)-1] {
				if c.after < mid {
					parts[0]++
				}
			}
			for _, c := range right[1 : len(right)-1] {
				if c.before < mid {
					parts[1]++
				}
			}
			out = append(out, stretch{joint: n, of: l, from: ends[k], to: ends[k+1], parts: parts})
		}
		n++
	}

	for i, a := range j.across {
		for k, c := range a[1 : len(a)-1] {
			out = append(out, stretch{joint: n, of: c.line, to: c.line.length(),
				parts: [2]int{first[i] + k, first[i] + k + 1}, level: true})
			n++
		}
	}
	return out
}

// letters names the stretches that are long enough to be more than a corner.
func (j *Joined) letters() {
	j.Letters = []Letter{}
	for _, s := range j.stretches() {
		if s.to-s.from < minStretch {
			continue
		}
		l := s.of.between(s.from, s.to)
		j.Letters = append(j.Letters, Letter{Letter: letterName(len(j.Letters)), Joint: s.joint + 1,
			Parts: [2]int{j.Parts[s.parts[0]].Number, j.Parts[s.parts[1]].Number}, Level: s.level,
			At: l.at(l.length() / 2), line: l})
	}
}

// letterName is A, B … Z, AA, AB …, without I and O, which look like figures.
func letterName(n int) string {
	const alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	name := ""
	for k := n; k >= 0; k = k/len(alphabet) - 1 {
		name = string(alphabet[k%len(alphabet)]) + name
	}
	return name
}

// side says on which side of a part, by its number, a joint's letter stands; empty where the part does not meet it.
func (l Letter) side(part int) string {
	switch {
	case part == l.Parts[0] && l.Level:
		return "above"
	case part == l.Parts[1] && l.Level:
		return "below"
	case part == l.Parts[0]:
		return "right"
	case part == l.Parts[1]:
		return "left"
	}
	return ""
}
