// The engine: the core without a screen. It is stateless, a request in and a result out: a command line natively, a Web
// Worker in the browser. Both go through the one table of verbs, in verbs.go: main_native.go and worker_js.go only
// carry.
package main
