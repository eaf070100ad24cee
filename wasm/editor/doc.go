// The editor: the ebiten canvas and the bridge to the page. It owns the open draft. What it does without a screen lives
// in package desk, which is tested natively; the files here run in a browser only.
package main
