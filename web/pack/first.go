package main

import "bytes"

// firstPlace is where index.html wants the first picture, if it wants one: the demonstration, drawn before the editor
// has started, where the editor will draw it.
const firstPlace = "<!-- first picture -->"

// putFirst lays the drawing into the page.
func putFirst(page, drawing []byte) []byte {
	first := append([]byte(`<div class="first" id="first" aria-hidden="true">`), bytes.TrimSpace(drawing)...)
	return bytes.Replace(page, []byte(firstPlace), append(first, "</div>"...), 1)
}
