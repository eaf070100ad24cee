package site

import (
	"strconv"
	"strings"
)

// identity is the name RFC 9110 gives to a file sent as it is.
const identity = "identity"

// preferred lists the encodings this server knows, best first: what decides between equal weights.
var preferred = []string{"br", "gzip", identity}

// choose picks among the encodings that exist the one an Accept-Encoding header weighs highest (RFC 9110, 12.5.3). An
// empty header means the file as it is. When the header rules everything out, the file as it is goes out all the same,
// which the standard allows and which helps more than an error.
func choose(header string, has func(encoding string) bool) string {
	weights := parseAccept(header)
	best, bestWeight := identity, 0.0
	for _, enc := range preferred {
		if enc != identity && !has(enc) {
			continue
		}
		if w := weightOf(weights, enc); w > bestWeight {
			best, bestWeight = enc, w
		}
	}
	return best
}

// weightOf returns the weight the header gives to an encoding: its own, else that of "*". What is not named is refused,
// except identity, which is welcome unless ruled out but loses to anything that was asked for.
func weightOf(weights map[string]float64, enc string) float64 {
	if w, ok := weights[enc]; ok {
		return w
	}
	if w, ok := weights["*"]; ok {
		return w
	}
	if enc == identity {
		return minWeight
	}
	return 0
}

// minWeight is under the smallest weight that can be written, which has three digits.
const minWeight = 0.0005

// parseAccept reads "br;q=0.5, gzip" into weights from 0 to 1. A weight that is not a number rules its encoding out.
func parseAccept(header string) map[string]float64 {
	weights := map[string]float64{}
	for item := range strings.SplitSeq(header, ",") {
		name, params, _ := strings.Cut(item, ";")
		name = strings.ToLower(strings.TrimSpace(name))
		if name == "" {
			continue
		}
		weight := 1.0
		for param := range strings.SplitSeq(params, ";") {
			key, value, ok := strings.Cut(param, "=")
			if !ok || !strings.EqualFold(strings.TrimSpace(key), "q") {
				continue
			}
			q, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
			if err != nil || !(q >= 0 && q <= 1) {
				q = 0
			}
			weight = q
		}
		weights[name] = weight
	}
	return weights
}
