package browser

import (
	"strings"
	"testing"
)

// Every field of a number has room for its longest value before its unit, in both units, on a wide window and a
// phone's.
func TestNumbersFitTheirFields(t *testing.T) {
	const cut = `(() => {
		const longest = {mm: "-1234.56", in: "-123.456", "mm²": "1234.56", "in²": "1.23456", "°": "-134.38", "×": ` +
		`"12.345", px: "12345.6", dpi: "1234.56"};
		const out = [];
		for (const fold of document.querySelectorAll("details")) fold.open = true;
		for (const input of document.querySelectorAll(".shell input")) {
			if (!input.checkVisibility()) continue;
			const unit = input.parentElement.querySelector(".after").textContent, was = input.value;
			input.value = longest[unit] ?? "1234";
			if (!/^(place|field|pen)/.test(input.dataset.field ?? "")) input.value = input.value.replace("-", ""); ` +
		`// nothing else is below 0
			if (input.scrollWidth > input.clientWidth) out.push((input.dataset.field || input.dataset.trace || ` +
		`input.dataset.wish || input.dataset.key || input.id) + " " + input.value + " " + unit);
			input.value = was;
		}
		return out;
	})()`
	p := open(t, how{}) // what it does to the page by script, no page begun anew would take back
	for _, size := range [][2]int64{{1440, 900}, {960, 540}, {390, 844}} {
		p.resize(size[0], size[1])
		for _, units := range []string{"in", "mm"} {
			eval[bool](p, `(document.querySelector("#units [value=`+units+`]").click(), `+
				`document.getElementById("hand").classList.add("open"),
				document.getElementById("ticket").classList.add("up"), openwork.select("m1"), true)`)
			p.wait("the units",
				`document.querySelector("[data-field='place.x']").parentElement.innerText.trim() === "`+units+`"`)
			for _, step := range []string{"silhouettes", "repeat", "panel", "subject", "paint", "sheet", "make"} {
				eval[bool](p, `(() => { const head = document.querySelector("[data-step=`+step+`] .step-head");
					if (head.getAttribute("aria-expanded") !== "true") head.click(); return true; })()`)
				if list := eval[[]string](p, cut); len(list) > 0 {
					t.Errorf("%d × %d, %s, %s: cut off: %s", size[0], size[1], units, step, strings.Join(list, "; "))
				}
			}
			eval[bool](p,
				`(document.getElementById("bring").showModal(), document.getElementById("bring-choices").hidden = false,
					document.getElementById("bring-two").hidden = false, true)`)
			if list := eval[[]string](p, cut); len(list) > 0 {
				t.Errorf("%d × %d, %s, bringing in: cut off: %s", size[0], size[1], units, strings.Join(list, "; "))
			}
			eval[bool](p,
				`(document.getElementById("bring").close(),
					document.getElementById("bring-choices").hidden = true, true)`)
		}
	}
}
