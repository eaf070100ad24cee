package browser

import (
	"os/exec"
	"strings"
	"testing"
)

// The study and the job sheet come as PDF that other readers take: as many pages as the page says, on the paper asked
// for, with the draft's title, and with a code that opens the draft.
func TestStudyAndJobSheet(t *testing.T) {
	p := open(t, how{})
	p.settled() // the step grows a line when the verdict comes
	p.click("[data-step=make] .step-head")
	p.pick(`[data-wish="study.paper"]`, "A3")
	p.click("#study")
	study := p.download("*-study.pdf")
	p.wait("word of it", `/pages of A3/.test(document.getElementById("made").textContent)`)
	run := func(name string, args ...string) string {
		t.Helper()
		out, err := exec.Command(name, args...).CombinedOutput()
		if err != nil {
			t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
		}
		return string(out)
	}
	run("qpdf", "--check", study)
	info := run("pdfinfo", study)
	said := p.made()
	if n := infoLine(info, "Pages:"); !strings.Contains(said, n+" pages") || !strings.Contains(info, "A3") {
		t.Errorf("the page says %q, and the file has\n%s", said, info)
	}
	p.click("#rates summary")
	p.fill(`[data-wish="job.rate"]`, "90")
	p.fill(`[data-wish="job.currency"]`, "EUR")
	p.click("#job")
	job := p.download("*-job.pdf")
	run("qpdf", "--check", job)
	if text := run("pdftotext", job, "-"); !containsAll(text, "Heron over carp", "EUR", "hydrogen chloride",
		"Side up") {
		t.Errorf("the job sheet reads\n%s", text)
	}
	picture := strings.TrimSuffix(job, ".pdf")
	run("pdftoppm", "-r", "200", "-png", job, picture)
	code := run("sh", "-c", "zbarimg -q --raw "+picture+"-2.png 2>/dev/null")
	if !strings.HasPrefix(code, "http://") || !strings.Contains(code, "#ow") {
		t.Errorf("the code reads %.80q", code)
	}
	again := open(t, how{fragment: strings.TrimSpace(code[strings.IndexByte(code, '#'):])})
	if got, want := again.draft(), p.draft(); got.Title != want.Title || len(got.Motifs) != len(want.Motifs) {
		t.Errorf("the code opens %q with %d motifs", got.Title, len(got.Motifs))
	}
}

// made is what the page says of what was made.
func (p *tab) made() string {
	return eval[string](p, `document.getElementById("made").textContent`)
}

// infoLine returns what follows a name in pdfinfo's lines.
func infoLine(info, name string) string {
	for _, line := range strings.Split(info, "\n") {
		if rest, ok := strings.CutPrefix(line, name); ok {
			return strings.TrimSpace(rest)
		}
	}
	return ""
}
