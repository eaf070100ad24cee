package patterntest

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"

	"openwork/pattern/symmetry"
)

// Ask puts questions, as a JSON list, to a Python script that works with other libraries than ours, such as GEOS by
// Debian's python3-shapely, and returns its answers, of which there must be one for each.
func Ask[A, Q any](script string, questions []Q) ([]A, error) {
	in, err := json.Marshal(questions)
	if err != nil {
		return nil, err
	}
	cmd := exec.Command("/usr/bin/python3", script)
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%s did not run (it needs Debian's packages python3-shapely, python3-ezdxf and "+
			"python3-fonttools): %w", script, err)
	}
	var answers []A
	if err := json.Unmarshal(out, &answers); err != nil {
		return nil, fmt.Errorf("%s: %w", script, err)
	}
	if len(answers) != len(questions) {
		return nil, fmt.Errorf("%s gives %d answers to %d questions", script, len(answers), len(questions))
	}
	return answers, nil
}

// Operations returns a group's operations as scripts read them, in coordinates of the cell: w11 w12 w21 w22 t1 t2.
func Operations(g symmetry.Group) [][6]float64 {
	var out [][6]float64
	for _, op := range g.Ops {
		out = append(out, [6]float64{float64(op.W[0][0]), float64(op.W[0][1]), float64(op.W[1][0]),
			float64(op.W[1][1]), op.T[0].Float(), op.T[1].Float()})
	}
	return out
}
