package browser

import "testing"

// watchWords keeps where each word on the panel was written last, in the canvas's own CSS px: its left and right ends
// and its middle.
const watchWords = `globalThis.words = [];
	const {clearRect, fillText} = CanvasRenderingContext2D.prototype;
	CanvasRenderingContext2D.prototype.clearRect = function (...at) {
		if (this.canvas.id === "labels") words.length = 0;
		return clearRect.apply(this, at);
	};
	CanvasRenderingContext2D.prototype.fillText = function (text, x, y, ...rest) {
		if (this.canvas.id === "labels" && this.textAlign === "left") {
			words.push({text, left: x, right: x + this.measureText(text).width, y});
		}
		return fillText.call(this, text, x, y, ...rest);
	};`

// Words beside marks near the right edge of the panel stand where no control lies over them.
func TestNoWordUnderAControl(t *testing.T) {
	p := open(t, how{width: 1440, height: 900, before: watchWords})
	s := p.whole()
	from := s.on(p.takeUp(s, false).inner)
	p.drag(from, point{from.x + 10, from.y + 8})
	chooseGroup(p, "p2")
	p.whole()
	p.wait("words on the panel", `words.length > 3`)
	for _, under := range eval[[]string](p, `(() => {
		const own = document.getElementById("labels").getBoundingClientRect();
		const boxes = [...document.querySelectorAll(".table > :is(button, .views)")].filter((e) => e.checkVisibility())
			.map((e) => e.getBoundingClientRect());
		return words.filter(({left, right, y}) => boxes.some((b) => own.x + left < b.right && b.left < own.x + right &&
			b.top < own.y + y && own.y + y < b.bottom)).map(({text}) => text);
	})()`) {
		t.Errorf("%q is written under a control", under)
	}
	p.keep("words")
}
