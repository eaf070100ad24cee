package letters_test

import (
	"fmt"
	"testing"
	"unicode"

	"openwork/pattern/letters"
)

func ExamplePlain() {
	for _, r := range "Řeřicha né" {
		plain, _ := letters.Plain(r)
		fmt.Print(string(plain))
	}
	// Output: Rericha ne
}

// A plain letter is one of A to Z or a to z, as large as the marked one; what has no marks stays, and is said to.
func TestPlain(t *testing.T) {
	found := 0
	for r := range rune(0x2000) {
		plain, ok := letters.Plain(r)
		switch {
		case !ok && plain != r:
			t.Errorf("%q became %q and is no letter with marks", r, plain)
		case !ok:
		case plain > unicode.MaxASCII || !unicode.IsLetter(plain):
			t.Errorf("%q became %q", r, plain)
		case unicode.IsUpper(r) != unicode.IsUpper(plain):
			t.Errorf("%q became %q", r, plain)
		default:
			found++
		}
	}
	if found < 150 {
		t.Errorf("%d letters with marks", found)
	}
}
