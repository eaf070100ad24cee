package main

import (
	"openwork/pattern/machine"
	"openwork/pattern/progress"
)

// speedsInput asks for the usual speeds, which need no draft.
type speedsInput struct{}

func (*speedsInput) usual() *speedsInput { return &speedsInput{} }

// run returns the table of speeds that holds until the shop gives its own.
func (*speedsInput) run(progress.Func) ([]machine.Speed, error) { return machine.Usual(), nil }
