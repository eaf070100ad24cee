package main

import (
	"crypto/sha256"
	"fmt"
	"regexp"
)

// row is a line of the table in README.md that ends in a file's checksum: | `path` | … | `checksum` |
var row = regexp.MustCompile("(?m)^(\\| `([^`]+)` \\|.*\\| )`([0-9a-f]*)` \\|$")

// checksums puts each file's SHA-256 into its row of the table; rows of other files stay.
func checksums(readme []byte, files map[string][]byte) []byte {
	return row.ReplaceAllFunc(readme, func(line []byte) []byte {
		m := row.FindSubmatch(line)
		file, ok := files[string(m[2])]
		if !ok {
			return line
		}
		return fmt.Appendf(nil, "%s`%x` |", m[1], sha256.Sum256(file))
	})
}
