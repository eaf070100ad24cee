#!/usr/bin/env bash
# ./build.sh         builds everything and serves it at http://localhost:8017 (PORT chooses another; Ctrl-C stops it)
# ./build.sh pack    builds only: web/dist for any static host, and bin/openwork, which holds the same files
# ./build.sh test    builds, then runs every check and test; installs their tools where it may ("test long": all cases)
# ./build.sh bench   builds, then measures what README's table says; further words go to the measuring program (-h)
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"

cache=.cache
all=(./... ./testdata/draw ./testdata/drafts)   # Go leaves testdata out of ./...
tools=(chromium-headless-shell firefox-esr xvfb gap-core gap-cryst python3-shapely python3-ezdxf python3-fonttools
	librsvg2-bin qpdf poppler-utils zbar-tools npm)

say() { printf '%s\n' "$@"; }
fail() { printf '%s\n' "$@" >&2; exit 1; }

# need_go checks that Go is there and no older than go.mod asks. A Go from 1.21 on fetches a newer one by itself.
need_go() {
	local want have
	want=$(sed -n 's/^go \([0-9.]*\).*/\1/p' go.mod)
	command -v go >/dev/null ||
		fail "Go is missing: install Go $want or newer from https://go.dev/dl/ and put its bin folder on the PATH."
	have=$(go env GOVERSION 2>&1) ||
		fail "Go $want or newer is needed, and the one installed could not fetch it: $have. Install it from https://go.dev/dl/."
	have=${have#go}
	case $have in
	[0-9]*) ;;
	*) return ;; # a development version: Go itself holds it against go.mod
	esac
	[ "$(printf '%s\n' "$want" "${have%%[!0-9.]*}" | sort -V | head -n 1)" = "$want" ] ||
		fail "Go $want or newer is needed, and this is Go $have: install it from https://go.dev/dl/."
}

# loader prints the path of Go's wasm_exec.js, which older distributions keep in another folder.
loader() {
	local root path
	root=$(go env GOROOT)
	for path in "$root/lib/wasm/wasm_exec.js" "$root/misc/wasm/wasm_exec.js"; do
		if [ -f "$path" ]; then
			printf '%s\n' "$path"
			return
		fi
	done
	fail "Go's wasm_exec.js is not in $root: this Go was installed without its lib/wasm folder (some distributions put it into a package of its own)."
}

# cold are packages of the standard library that take no time worth telling: formatting, reading, the system. Both programs
# have them without inlining, so that they are compiled once.
cold=(go/... text/... regexp/... net/... encoding/... fmt reflect time unicode/... bufio os io/... internal/abi
	internal/reflectlite strings bytes errors context path/... syscall sync syscall/js internal/poll archive/... html/... weak
	unique iter internal/godebug internal/fmtsort internal/oserror internal/filepathlite internal/testlog internal/syscall/...)
# cold_editor are those that no frame runs through besides: pictures, the draft, links, the overlay (for ties and the pen),
# curves, and what the desk does. Without inlining, both lists make the editor some 200 kB smaller, compressed, and nobody waits
# longer.
cold_editor=(image/... strconv math/big math/rand/... hash/... compress/... container/... golang.org/x/...
	openwork/pattern/draft openwork/pattern/letters openwork/pattern/link openwork/pattern/sheet/sentences
	openwork/geometry/pen openwork/geometry/overlay openwork/geometry/curve openwork/wasm/editor openwork/wasm/editor/desk/...)

# flags_of sets flags to those that the editor or the engine is compiled for the browser with. What checks its packages
# takes the same, so that they are compiled once.
flags_of() {
	local package packages=("${cold[@]}")
	if [ "$1" = editor ]; then packages+=("${cold_editor[@]}"); fi
	flags=(-trimpath -buildvcs=false)
	for package in "${packages[@]}"; do flags+=("-gcflags=$package=-l"); done
}

build_wasm() {
	local flags
	mkdir -p "$cache/wasm"
	flags_of editor
	go run ./web/lean -to "$cache/lean" &&
		GOOS=js GOARCH=wasm go build "${flags[@]}" '-ldflags=-s -w' "-modfile=$cache/lean/go.mod" \
			-o "$cache/wasm/editor.wasm" ./wasm/editor || return 1
	flags_of engine
	GOOS=js GOARCH=wasm go build "${flags[@]}" '-ldflags=-s -w' -o "$cache/wasm/engine.wasm" ./wasm/engine
}

# build_pictures draws the first picture and those of the examples and of the guide with the engine itself.
build_pictures() {
	local draft to="$cache/pictures"
	rm -rf "$to" && mkdir -p "$to" && go build -o "$cache/engine" ./wasm/engine || return 1
	"$cache/engine" picture testdata/drafts/heron-with-room.openwork.json -o "$cache/first.svg" || return 1
	for draft in testdata/drafts/scene-*.openwork.json testdata/guide/*.openwork.json; do
		"$cache/engine" picture "$draft" -o "$to/$(basename "$draft" .openwork.json).svg" || return 1
	done
	cp "$cache/first.svg" "$to/demo.svg" &&
		"$cache/engine" cut testdata/guide/guide-silhouette.openwork.json -cut-width 0.7 -mark-width 0.7 -label 0 -bar=false \
			-o "$to/guide-cut.svg" >/dev/null
}

# build_page packs the page; further words go to the packer.
build_page() {
	local exec_js
	exec_js=$(loader) || return 1
	build_pictures &&
		go run ./web/pack -first "$cache/first.svg" -pictures "$cache/pictures" -from web -to web/dist \
			-wasm "$cache/wasm" -loader "$exec_js" -cache "$cache/brotli" "$@"
}

# weigh_page holds the two programs against their budgets, by a quick compression where that is enough.
weigh_page() { go run ./web/pack -weigh -wasm "$cache/wasm" -cache "$cache/brotli"; }

build_server() {
	CGO_ENABLED=0 go build -buildvcs=false -tags packed -ldflags='-s -w' -o bin/openwork ./web/serve
}

build_all() {
	need_go
	say "Compiling the editor and the engine for the browser"
	build_wasm
	say "Packing the page (the first time takes a minute or two: the programs are compressed as far as they go)"
	build_page
	build_server
}

# has says whether what a Debian package brings is there and works.
has() {
	case $1 in
	chromium-headless-shell) command -v chromium-headless-shell >/dev/null ;;
	chromium) command -v chromium >/dev/null || command -v chromium-browser >/dev/null || command -v google-chrome >/dev/null ;;
	firefox-esr) command -v firefox-esr >/dev/null || command -v firefox >/dev/null ;;
	xvfb) command -v Xvfb >/dev/null ;;
	gap-core) command -v gap >/dev/null ;;
	gap-cryst) [ "$(printf 'if LoadPackage("cryst")=true then Print("yes\\n"); fi;\n' | gap -q 2>/dev/null)" = yes ] ;;
	python3-shapely) /usr/bin/python3 -c 'import shapely' 2>/dev/null ;;
	python3-ezdxf) /usr/bin/python3 -c 'import ezdxf' 2>/dev/null ;;
	python3-fonttools) /usr/bin/python3 -c 'import fontTools' 2>/dev/null ;;
	librsvg2-bin) command -v rsvg-convert >/dev/null ;;
	qpdf) command -v qpdf >/dev/null ;;
	poppler-utils) command -v pdftoppm >/dev/null ;;
	zbar-tools) command -v zbarimg >/dev/null ;;
	npm) command -v npm >/dev/null ;;
	esac
}

missing() {
	local tool
	for tool in "${tools[@]}"; do
		if ! has "$tool"; then printf '%s\n' "$tool"; fi
	done
}

# ask_first has a person at the keyboard give the password that installing may need: what runs aside cannot ask.
ask_first() {
	if [ -t 0 ] && [ "$(id -u)" -ne 0 ] && command -v sudo >/dev/null && [ -n "$(missing)" ]; then sudo -v || true; fi
}

# test_tools installs what is missing where this user may, and otherwise says how to get it.
test_tools() {
	local lack as=()
	mapfile -t lack < <(missing)
	if [ ${#lack[@]} -eq 0 ]; then
		say "all there: ${tools[*]}"
		return
	fi
	say "missing: ${lack[*]}"
	if command -v apt-get >/dev/null && may_install; then
		say "installing with apt-get"
		"${as[@]}" apt-get -o DPkg::Lock::Timeout=300 update -q &&
			"${as[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 install -q -y "${lack[@]}" || true
		mapfile -t lack < <(missing)
		[ ${#lack[@]} -gt 0 ] || return 0
	fi
	if [ "${lack[*]}" = chromium-headless-shell ] && has chromium; then
		say "Chromium without its windows is not to be had here: browser tests take a third longer in the whole one."
		return
	fi
	say "The tests need these Debian packages, which are not installed: ${lack[*]}"
	say "Install them with: sudo apt-get update && sudo apt-get install ${lack[*]}"
	say "On another system: Chromium (chromium-headless-shell, or the whole of it); Firefox; Xvfb; GAP with its package cryst; /usr/bin/python3 with shapely, ezdxf and fontTools; rsvg-convert from librsvg; qpdf; pdftoppm from poppler; zbarimg from ZBar; npm, which fetches drawings to trace and a checker of types."
	return 1
}

# may_install sets as to the words that make apt-get run with the rights it needs.
may_install() {
	if [ "$(id -u)" -eq 0 ]; then
		as=()
	elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
		as=(sudo)
	else
		return 1
	fi
}

check_format() {
	local wrong
	wrong=$(gofmt -l geometry pattern testdata wasm web) || return 1
	[ -z "$wrong" ] || { say "not formatted; run gofmt -w on:" "$wrong"; return 1; }
}

# vet and static look at every package as it is on this machine, and once more at those in wasm/ as they are in the
# browser: only they have files for one of the two.
vet() {
	local flags
	go vet "${all[@]}" || return 1
	flags_of editor
	GOOS=js GOARCH=wasm go vet "${flags[@]}" "-modfile=$cache/lean/go.mod" ./wasm/editor/... || return 1
	flags_of engine
	GOOS=js GOARCH=wasm go vet "${flags[@]}" ./wasm/engine
}

# static runs staticcheck, built for this machine once: go tool would build it for the browser in the second run. In the browser the
# engine's verbs have their command line too, which nothing calls there and the linker leaves out: that is no fault of theirs.
static() {
	local flags
	go build -o "$cache/staticcheck" honnef.co/go/tools/cmd/staticcheck && "$cache/staticcheck" "${all[@]}" || return 1
	flags_of editor
	GOFLAGS="${flags[*]}" GOOS=js GOARCH=wasm "$cache/staticcheck" -tests=false ./wasm/editor/... || return 1
	flags_of engine
	GOFLAGS="${flags[*]}" GOOS=js GOARCH=wasm "$cache/staticcheck" -tests=false -checks inherit,-U1000 ./wasm/engine
}

# page_types checks the types of the page's modules: with TypeScript's compiler, which npm brings once and of which nothing
# is kept in the repository. It is licensed under Apache 2.0.
page_types() {
	local package=typescript-5.9.3 fresh
	local sum=10e108c9cf7d5f2879053dff18515fb405abf2ccef63eaaf017d9c571687a1d3
	if [ ! -d "$cache/$package" ]; then
		[ -f "$cache/$package.tgz" ] || npm pack "${package/-/@}" --silent --pack-destination "$cache" || return 1
		sha256sum --check --quiet <<<"$sum  $cache/$package.tgz" || return 1
		fresh=$(mktemp -d "$cache/new-XXXXXX") || return 1
		tar -xzf "$cache/$package.tgz" -C "$fresh" && mv "$fresh/package" "$cache/$package" && rmdir "$fresh" || return 1
	fi
	node "$cache/$package/bin/tsc" -p web/types
}

# build_slow builds what prints tests and remembers their times, for both runs of go test at once.
build_slow() {
	rm -f "$cache/times"
	go build -o "$cache/slow" ./web/slow
}

# timed runs go test on the packages given and remembers how long each test took; with -v first everything is printed. There
# is a stage for vetting.
timed() {
	local show=()
	if [ "$1" = -v ]; then show=(-v); shift; fi
	go test -count=1 -vet=off -timeout 25m -json "$@" | "$cache/slow" "${show[@]}" -times "$cache/times"
}

# slowest names the ten slowest tests of both runs.
slowest() {
	"$cache/slow" -times "$cache/times" -name 10
}

# Some tests ask other programs (go list, GAP, Python), whose answers Go's test cache does not follow: hence -count=1.
# The longest packages come first, so that none of them is left alone at the end.
long=(./pattern/sheet/panel ./pattern/scan ./pattern/cutfile ./pattern/stepping ./pattern/sheet/ties ./wasm/editor/desk)
go_tests() {
	local packages
	packages=$(go list "${long[@]}" "${all[@]}" | grep -v '/web/browser\(/\|$\)') || return 1
	# shellcheck disable=SC2086 # the list is meant to fall apart into words
	timed $packages
}

browser_tests() { timed -v ./web/browser/...; }

passed=()
failed=()
# stage runs one step of the test, with its name above it and its time below.
stage() {
	local name=$1 start=$SECONDS
	shift
	say "" "== $name"
	if "$@"; then
		passed+=("$name")
		say "-- $name: passed, $((SECONDS - start)) s"
	else
		failed+=("$name")
		say "-- $name: FAILED, $((SECONDS - start)) s"
		return 1
	fi
}

declare -A beside=()
# aside starts a step beside the stages that come next, which go first where both want the processor; a stage that runs
# "after STEP" waits for it and shows what it said.
aside() {
	(
		start=$SECONDS
		status=0
		renice -n 19 "$BASHPID" >/dev/null 2>&1 || true
		"$@" || status=$?
		say "($1 took $((SECONDS - start)) s beside other stages)"
		exit $status
	) >"$cache/$1.log" 2>&1 &
	beside[$1]=$!
}

after() {
	local status=0
	wait "${beside[$1]}" || status=$?
	cat "$cache/$1.log"
	return $status
}

run_tests() {
	local packed=true
	export GOGC=400 # memory for time, in compilers and tests
	export CGO_ENABLED=0 # as the server is built: packages are compiled once
	case ${1:-} in
	long) export OPENWORK_LONG=1 GOFLAGS="${GOFLAGS:+$GOFLAGS }-tags=compare" ;;
	?*) fail "\"test $1\" is not understood: \"test\" takes a share of the costly cases, \"test long\" all of them." ;;
	esac
	need_go
	mkdir -p "$cache"
	ask_first
	trap 'trap "" TERM; kill 0; exit 130' INT # what runs aside does not hear Ctrl-C
	aside test_tools
	stage "gofmt" check_format || true
	stage "build what times the tests" build_slow || finish
	stage "compile for the browser" build_wasm || finish
	aside vet
	aside static
	stage "pack the page for the browser's tests" build_page -plain || packed=false
	stage "build the server" build_server || packed=false
	stage "test tools" after test_tools || finish
	# The browser's tests leave some of the processor free: the rest runs beside them.
	aside page_types
	aside go_tests
	aside weigh_page
	if $packed; then stage "browser tests" browser_tests || true; fi
	stage "the page within its budgets" after weigh_page || true
	stage "go vet, native and wasm" after vet || true
	stage "staticcheck, native and wasm" after static || true
	stage "types of the page's modules" after page_types || true
	stage "go test" after go_tests || true
	stage "the ten slowest tests" slowest || true
	finish
}

# finish says in one line how the whole went.
finish() {
	wait # for what still runs aside
	say ""
	if [ ${#failed[@]} -eq 0 ]; then
		say "PASSED: all ${#passed[@]} stages in $((SECONDS / 60)) min $((SECONDS % 60)) s"
		exit 0
	fi
	say "FAILED after $((SECONDS / 60)) min $((SECONDS % 60)) s: $(printf '%s; ' "${failed[@]}" | sed 's/; $//') (${#passed[@]} stages passed)"
	exit 1
}

case ${1:-serve} in
serve) build_all; exec bin/openwork ;;
pack) build_all; say "web/dist is ready for any static host; bin/openwork serves it on this machine" ;;
test) shift; run_tests "$@" ;;
bench) shift; build_all; exec go run ./web/bench "$@" ;;
-h | --help | help) sed -n '2,5s/^# //p' "${BASH_SOURCE[0]}" ;;
*) fail "\"$1\" is not understood: ./build.sh -h lists what is" ;;
esac
