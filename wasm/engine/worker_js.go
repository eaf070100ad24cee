//go:build js

package main

import (
	"syscall/js"

	"openwork/pattern"
	"openwork/pattern/progress"
)

// progressStep is the smallest part of the work that is worth a message.
const progressStep = 0.01

// main answers messages until the page ends the worker. Cancelling is ending: nothing here needs to be asked to stop.
func main() {
	self := js.Global()
	self.Set("onmessage", js.FuncOf(func(_ js.Value, a []js.Value) any {
		answer(self, a[0].Get("data"))
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}

// answer carries out one message and posts what came of it.
func answer(self, msg js.Value) {
	out := map[string]any{"id": msg.Get("id")}
	var in []byte
	if b := msg.Get("bytes"); b.Truthy() {
		in = make([]byte, b.Get("length").Int())
		js.CopyBytesToGo(in, b)
	}
	args := self.Get("JSON").Call("stringify", msg.Get("args")).String()
	text, data, err := reply(msg.Get("verb").String(), []byte(args), in, report(self, out["id"]))
	transfer := []any{}
	if err != nil {
		out["ok"], out["error"] = false, pattern.Sentence(err.Error())
	} else {
		out["ok"], out["json"] = true, text
		if data != nil {
			b := self.Get("Uint8Array").New(len(data))
			js.CopyBytesToJS(b, data)
			out["bytes"] = b
			transfer = append(transfer, b.Get("buffer"))
		}
	}
	self.Call("postMessage", out, transfer)
}

// report returns what posts how far the work on a message has come.
func report(self js.Value, id any) progress.Func {
	return progress.Rising(progressStep, func(part float64) {
		self.Call("postMessage", map[string]any{"id": id, "part": part})
	})
}
