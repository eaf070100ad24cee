//go:build js

package main

import (
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"

	"openwork/pattern/draft"
	"openwork/wasm/editor/desk"
)

func main() {
	k := desk.New(draft.Default())
	c := &canvas{desk: k, colours: daylight}
	export(c)
	ebiten.SetTPS(ebiten.SyncWithFPS)
	ebiten.SetScreenClearedEveryFrame(false)
	ebiten.SetRunnableOnUnfocused(true)
	// The page answers the canvas's size in device pixels, so ebiten itself must not multiply by the ratio again; and
	// it must not take the focus, which is the page's to give.
	options := &ebiten.RunGameOptions{DisableHiDPI: true, InitUnfocused: true}
	if err := ebiten.RunGameWithOptions(c, options); err != nil {
		if fail := js.Global().Get("openworkFailed"); fail.Type() == js.TypeFunction {
			fail.Invoke("The canvas could not be started: " + err.Error())
		}
	}
}
