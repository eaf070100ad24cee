package main

import (
	"strings"
	"testing"
)

const events = `{"Action":"start","Package":"a"}
{"Action":"output","Package":"a","Test":"TestOne","Output":"--- PASS: TestOne (1.50s)\n"}
{"Action":"pass","Package":"a","Test":"TestOne/part","Elapsed":1.4}
{"Action":"pass","Package":"a","Test":"TestOne","Elapsed":1.5}
{"Action":"output","Package":"b","Test":"TestFine","Output":"--- PASS: TestFine (0.10s)\n"}
{"Action":"pass","Package":"b","Test":"TestFine","Elapsed":0.1}
{"Action":"output","Package":"b","Test":"TestTwo","Output":"    b_test.go:7: it is wrong\n"}
{"Action":"output","Package":"a","Output":"ok  \ta\t1.6s\n"}
{"Action":"pass","Package":"a","Elapsed":1.6}
no event
{"Action":"fail","Package":"b","Test":"TestTwo","Elapsed":3}
{"Action":"output","Package":"b","Output":"FAIL\tb\t3.1s\n"}
{"Action":"fail","Package":"b","Elapsed":3.1}
`

func TestFollow(t *testing.T) {
	for _, c := range []struct {
		name string
		all  bool
		want string
	}{
		{"in short", false, "ok  \ta\t1.6s\nno event\n    b_test.go:7: it is wrong\nFAIL\tb\t3.1s\n"},
		{"all of it", true,
			"--- PASS: TestOne (1.50s)\n--- PASS: TestFine (0.10s)\n    b_test.go:7: it is wrong\n" +
				"ok  \ta\t1.6s\nno event\nFAIL\tb\t3.1s\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, times, slowest strings.Builder
			if err := follow(strings.NewReader(events), &out, &times, c.all); err != nil {
				t.Fatal(err)
			}
			if out.String() != c.want {
				t.Errorf("printed\n%s\ninstead of\n%s", out.String(), c.want)
			}
			if err := nameSlowest(strings.NewReader(times.String()), 10, &slowest); err != nil {
				t.Fatal(err)
			}
			want := "   3.0 s  TestTwo in b\n   1.5 s  TestOne in a\n   0.1 s  TestFine in b\n"
			if slowest.String() != want {
				t.Errorf("the slowest are\n%s\ninstead of\n%s", slowest.String(), want)
			}
		})
	}
}
