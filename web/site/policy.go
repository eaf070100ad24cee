package site

import "net/http"

// Policy is the content security policy: everything comes from the page's own host, WebAssembly may be compiled, and no
// other script runs. The page repeats it in a meta element, so that a plain static host keeps it too; frame-ancestors
// means something in the header only.
const Policy = "default-src 'none'; " +
	"script-src 'self' 'wasm-unsafe-eval'; " +
	"style-src 'self'; " +
	"img-src 'self' blob: data:; " +
	"connect-src 'self'; " +
	"worker-src 'self'; " +
	"manifest-src 'self'; " +
	"font-src 'none'; " +
	"base-uri 'none'; " +
	"form-action 'none'; " +
	FrameRule

// FrameRule is the part of Policy that a meta element cannot hold.
const FrameRule = "frame-ancestors 'none'"

// setHeaders puts on every answer, good or bad, what keeps the page to itself. The two cross-origin rules for opener
// and embedder also give the page a finer clock.
func setHeaders(h http.Header) {
	h.Set("Content-Security-Policy", Policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Embedder-Policy", "require-corp")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
}
