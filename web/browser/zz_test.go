package browser

import ("testing";"os";"fmt")

func TestZZ(t *testing.T) {
	p := open(t, how{})
	p.settled()
	eval[string](p, `openwork.command(JSON.stringify({name:"cell",values:{b:80}}))`)
	p.settled()
	p.act("next-fault")
	p.click("#fault-which")
	p.wait("the list of faults", `!document.getElementById("fault-list").hidden`)
	for i, css := range []string{"", "border-radius:0", "background:rgb(255 255 255 / .985)", "overflow:hidden", "box-shadow:none", "opacity:.99"} {
		eval[bool](p, fmt.Sprintf(`(document.getElementById("fault-list").style.cssText = %q, true)`, css))
		os.WriteFile(fmt.Sprintf("/tmp/bt/zz%d.png", i), p.capture(), 0o644)
		img := p.shot()
		b := p.boxOf("#fault-list")
		r,g,bb,_ := img.At(int(b.X)+200, int(b.Y)-60).RGBA()
		r2,g2,b2,_ := img.At(int(b.X)-60, int(b.Y)-60).RGBA()
		t.Log(css, r>>8,g>>8,bb>>8, "left", r2>>8,g2>>8,b2>>8)
	}
}
