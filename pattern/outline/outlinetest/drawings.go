package outlinetest

import "strings"

// Drawings are our own, each for one feature of the language, in black and white on a page of whole pixels.
var Drawings = []struct{ Name, SVG string }{
	{"basic shapes", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<rect x="5" y="5" width="30" height="20"/><rect x="40" y="5" width="30" height="20" rx="6"/>
		<rect x="75" y="5" width="30" height="20" rx="4" ry="9"/><circle cx="20" cy="50" r="14"/>
		<ellipse cx="60" cy="50" rx="18" ry="9"/><polygon points="85,40 110,40 97.5,70"/>
		<polyline points="85 75 110,75,110 72"/></svg>`},
	{"sizes in mm", `<svg xmlns="http://www.w3.org/2000/svg" width="25.4mm" height="1in" viewBox="0 0 200 200">
		<circle cx="100" cy="100" r="80"/></svg>`},
	{"sizes in cm, pt and pc", `<svg xmlns="http://www.w3.org/2000/svg" width="5.08cm" height="72pt">
		<rect x="1pc" y="12pt" width="1cm" height="10mm"/><circle cx="50%" cy="50%" r="10%"/></svg>`},
	{"viewBox with offset, fitted", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60" viewBox="-50 ` +
		`100 100 100">
		<path d="M-40 110h80v80h-80z M-20 130v40h40v-40z"/></svg>`},
	{"viewBox laid to the right and cut", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60" ` +
		`viewBox="0 0 10 10" preserveAspectRatio="xMaxYMin slice">
		<circle cx="5" cy="2" r="4"/></svg>`},
	{"viewBox stretched", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60" viewBox="0 0 10 10" ` +
		`preserveAspectRatio="none">
		<circle cx="5" cy="5" r="4"/></svg>`},
	{"cut by the page", `<svg xmlns="http://www.w3.org/2000/svg" width="80" height="80">
		<circle cx="10" cy="10" r="40"/><circle cx="80" cy="60" r="18"/></svg>`},
	{"transforms within transforms", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="120">
		<g transform="translate(60 60) rotate(30)"><g transform="scale(1.5,-.7)"><rect x="-20" y="-20" width="30" ` +
		`height="40" transform="skewX(20)"/></g>
		<path d="M0 0L40 10 20 30z" transform="rotate(200, 10 10) skewY(10)"/></g>
		<circle r="10" transform="matrix(1 .3 -.2 .8 20,100)"/></svg>`},
	{"path commands", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M10 10 H40 V30 h-10 v10 L10,40 Z m50 0 l20 0 20 20-20 20-20-20zM110,10C130-10 150 50 170 10S190 60 ` +
		`180 70 q-20 20-40 0 T100 70 t-10-40z"/>
		<path d="m10 60c5-10 20-10 25 0s20 10 25 0v30h-50zm5 10 10 0 0 10-10 0z"/></svg>`},
	{"arcs, flags run together", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M20 50a20 20 0 1140 0 20 20 0 01-40 0M80 50A30 15 30 11120 60A30 15 30 0080 50z"/>
		<path d="M140 20a1 1 0 0140 30a40,10,45,1,0-40-30zM150 80a0 5 0 0 1 20 0l-5 10z"/></svg>`},
	{"smooth curves without one before", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="60">
		<path d="M10 10S40 0 50 30T90 50L10 50z"/></svg>`},
	{"parts after a close", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="60">
		<path d="M10 10h20v20h-20z l30 20 h20 v-10z m45 0h20v20h-20"/></svg>`},
	{"fill rules", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M50 5L79 95 3 39H97L21 95z"/><path fill-rule="evenodd" d="M150 5L179 95 103 39H197L121 95z"/></svg>`},
	{"even-odd, three deep", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100" fill-rule="evenodd">
		<path d="M5 5h90v90h-90zM15 15h70v70h-70zM25 25h50v50h-50zM20 40h60v10h-60z"/></svg>`},
	{"a loop that crosses itself", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<path d="M10 70C150-50-30-50 110 70C60 60 60 60 10 70"/></svg>`},
	{"overlapping shapes", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60">
		<circle cx="30" cy="30" r="20"/><circle cx="50" cy="30" r="20"/><rect x="60" y="25" width="40" height="10"/>` +
		`<rect x="70" y="25" width="20" height="10"/></svg>`},
	{"white over black", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">
		<rect width="100%" height="100%" fill="#fff"/><circle cx="50" cy="50" r="40"/>` +
		`<circle cx="60" cy="50" r="20" fill="white"/><rect x="55" y="45" width="10" height="10"/></svg>`},
	{"use, defs and symbol", `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ` +
		`width="160" height="80">
		<defs><path id="leaf" d="M0 0C10-10 30-10 40 0C30 10 10 10 0 0z"/><g id="pair"><use href="#leaf"/>` +
		`<use xlink:href="#leaf" transform="rotate(90)"/></g>
		<symbol id="s" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></symbol></defs>
		<use href="#pair" x="10" y="20"/><use href="#pair" transform="translate(70 20) scale(1.2)"/>` +
		`<use href="#s" x="110" y="20" width="40" height="30"/></svg>`},
	{"svg within svg", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<svg x="10" y="10" width="50" height="40" viewBox="0 0 100 100"><circle cx="50" cy="50" r="60"/></svg>
		<svg x="60%" y="50%" width="40" height="30"><rect width="100%" height="50%"/></svg></svg>`},
	{"styles", `<svg xmlns="http://www.w3.org/2000/svg" width="160" height="60">
		<style>/* rules */ .off{display:none} .gone, .other { fill : none } rect.k { fill-rule: evenodd; fill: ` +
		`black } #one{fill:none!important}
		circle{fill:none} .in{fill:#000}</style>
		<rect class="off" width="10" height="10"/><rect class="k gone" x="10" y="10" width="20" height="20"/>` +
		`<rect class="gone" x="30" y="10" width="20" height="20"/>
		<circle cx="70" cy="20" r="10"/><circle class="in" cx="95" cy="20" r="10"/>` +
		`<rect id="one" x="110" y="5" width="20" height="20" style="fill:black"/>
		<rect x="110" y="30" width="20" height="20" fill="none" style="fill: rgb(0, 0, 0); stroke:none"/>` +
		`<g fill="none"><rect x="135" y="30" width="20" height="20" fill="inherit"/><rect x="135" y="5" width="20" ` +
		`height="20" fill="currentColor"/></g></svg>`},
	{"visibility and opacity", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="40">
		<g visibility="hidden"><rect x="5" y="5" width="20" height="20"/><rect x="30" y="5" width="20" height="20" ` +
		`visibility="visible"/></g>
		<g display="none"><rect x="55" y="5" width="20" height="20" display="inline"/></g>` +
		`<rect x="80" y="5" width="10" height="20" opacity="0"/><rect x="95" y="5" width="10" height="20" ` +
		`fill-opacity="0"/></svg>`},
	{"lines", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80" stroke="black">
		<line x1="10" y1="10" x2="50" y2="20" stroke-width="6"/><line x1="10" y1="40" x2="50" y2="40" ` +
		`stroke-width="8" stroke-linecap="round"/>
		<line x1="70" y1="20" x2="100" y2="40" stroke-width="10" stroke-linecap="square"/>` +
		`<line x1="70" y1="60" x2="70" y2="60" stroke-width="10" stroke-linecap="round"/></svg>`},
	{"strokes", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="120" fill="none" stroke="#000" ` +
		`stroke-width="6">
		<polyline points="10,50 30,10 50,50"/><polyline points="60,50 80,10 100,50" stroke-linejoin="round"/>` +
		`<polyline points="110,50 130,10 150,50" stroke-linejoin="bevel"/>
		<polygon points="160,50 175,15 190,50"/><path d="M10 110C40 40 60 140 90 70S120 100 130 80" ` +
		`stroke-linecap="round"/>
		<g transform="translate(160 90) scale(1.6 .6)"><circle r="16"/></g><polyline points="100,110 140,112 ` +
		`100,114" stroke-width="3"/></svg>`},
	{"filled and stroked", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">
		<circle cx="50" cy="50" r="30" stroke="black" stroke-width="10"/><circle cx="50" cy="50" r="15" ` +
		`fill="white" stroke="black" stroke-width="4"/></svg>`},
	{"clip paths", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<clipPath id="c"><circle cx="40" cy="40" r="25"/><rect x="60" y="30" width="30" height="20" ` +
		`transform="rotate(10 70 40)"/></clipPath>
		<clipPath id="e"><path clip-rule="evenodd" d="M0 0h120v80h-120zM30 30h20v20h-20z"/></clipPath>
		<g clip-path="url(#c)"><rect x="10" y="20" width="100" height="40" clip-path="url(#e)"/></g></svg>`},
	{"prefixed names, foreign elements", `<?xml version="1.0" encoding="ISO-8859-1"?>` +
		`<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
		<svg:svg xmlns:svg="http://www.w3.org/2000/svg" xmlns:own="urn:x" width="60" height="40">` +
		`<own:rect width="50" height="50"/><svg:metadata><own:a/></svg:metadata>
		<svg:rect x="10" y="10" width="20" height="20" own:fill="none"/></svg:svg>`},
	{"switch",
		`<svg xmlns="http://www.w3.org/2000/svg" width="60" height="40"><switch><rect requiredExtensions="urn:none" ` +
			`width="60" height="40"/><circle cx="20" cy="20" r="10"/><rect width="10" height="10"/></switch></svg>`},
	{"references that lead nowhere or round", `<svg xmlns="http://www.w3.org/2000/svg" width="80" height="40">
		<use href="#none"/><rect x="5" y="5" width="20" height="20" fill="url(#none) black"/>` +
		`<rect x="30" y="5" width="20" height="20" fill="url(#none)"/>
		<rect x="55" y="5" width="20" height="20" transform="rotate(10"/><rect x="5" y="28" width="30" height="8" ` +
		`transform="turn(10)"/></svg>`},
	{"a path that breaks off",
		`<svg xmlns="http://www.w3.org/2000/svg" width="80" height="40"><path d="M10 10h30v20h-30z M50 10 L 60 30 ` +
			`70 10 Q 5"/></svg>`},
	{"curves that all but coincide", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M20 50a20 20 0 1140 0 20 20 0 01-40 0M80 50A30 15 30 1111120 60A30 15 30 0080 50z"/></svg>`},
	{"pieces that touch in a corner", `<svg xmlns="http://www.w3.org/2000/svg" width="80" height="80">` +
		`<rect x="10" y="10" width="30" height="30"/><rect x="40" y="40" width="30" height="30"/>
		<path fill-rule="evenodd" d="M50 5h25v25h-25zM50 5L70 15L60 25z"/></svg>`},
}

const SvgHead = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="120" ` +
	`height="120">`

// moreDrawings are for features in one another; they are drawn by rsvg-convert as well.
var moreDrawings = []struct{ Name, SVG string }{
	{"svg in svg in svg, per cent and overflow", SvgHead + `<svg x="10%" y="10%" width="50%" height="50%" ` +
		`viewBox="0 0 200 100"><svg x="50%" y="25%" width="50%" height="50%"><rect width="50%" height="50%"/>` +
		`<circle cx="75%" cy="75%" r="10%"/></svg>
		<g transform="rotate(20)"><svg x="5" y="5" width="60" height="40" viewBox="0 0 10 10" overflow="visible">` +
		`<rect x="-3" width="16" height="10"/></svg></g></svg>
		<style>.v{overflow:visible}</style><svg class="v" x="80" y="80" width="20" height="20">` +
		`<rect x="-5" y="-5" width="30" height="20"/></svg></svg>`},
	{"letter heights", SvgHead + `<g style="font-size:20px"><rect x="1em" y="1em" width="1em" height="2ex"/>` +
		`<g font-size=".5em"><rect x="5em" y="1em" width="2em" height="2em"/></g></g>
		<g style="font:italic bold 10px/12px serif"><rect x="8em" y="8em" width="2em" height="2em" rx="1ex"/></g>` +
		`<g font-size="10" stroke="black"><path d="M10 60h50" stroke-width="1em"/>` +
		`<path d="M10 90h50" stroke-width="5%"/></g></svg>`},
	{"rounded rectangles", SvgHead + `<rect x="2" y="2" width="30" height="20" rx="40"/>` +
		`<rect x="40" y="2" width="30" height="20" ry="40"/><rect x="80" y="2" width="30" height="20" rx="5" ` +
		`ry="100"/><rect x="2" y="30" width="30" height="20" rx="0" ry="5"/>
		<rect x="40" y="30" width="30" height="20" rx="-3" ry="5"/><rect x="80" y="30" width="30" height="20" ` +
		`rx="10%" ry="5%"/><rect x="2" y="60" width="30" height="20" rx="auto" ry="5"/>` +
		`<rect x="40" y="60" width="-30" height="20"/></svg>`},
	{"round joins end where a butt end does", SvgHead +
		`<g fill="none" stroke="black" stroke-width="12" stroke-linejoin="round"><path d="M20 40Q60 10 100 50"/>` +
		`<path d="M20 80C120 60 0 60 100 80"/><path d="M20 100l20 10 20-10" stroke-width="6"/></g></svg>`},
	{"dashes", SvgHead + `<g fill="none" stroke="black" stroke-width="4" stroke-dasharray="10,5 2">` +
		`<path d="M10 10h100"/><path d="M10 30h100" stroke-dashoffset="7"/>` +
		`<path d="M10 40h100" stroke-dashoffset="-7"/><rect x="21" y="55" width="30" height="30"/>
		<circle cx="85" cy="75" r="18" stroke-linecap="round"/><path d="M10 110L30 95L50 110L70 95m10 0l20 10z" ` +
		`stroke-linejoin="round" stroke-linecap="square"/></g></svg>`},
	{"dashes that are none", SvgHead +
		`<g stroke="black" stroke-width="4"><path d="M10 10h100" stroke-dasharray="none"/>` +
		`<path d="M10 20h100" stroke-dasharray="0"/><path d="M10 30h100" stroke-dasharray="-3 4"/>` +
		`<path d="M10 40h100" stroke-dasharray="10 abc"/></g></svg>`},
	{"a point that is closed has caps", SvgHead +
		`<g stroke="black" stroke-width="20" stroke-linecap="round"><path d="M30 30z"/>` +
		`<path d="M80 30h0" stroke-linecap="square"/><path d="M30 80h0" stroke-linecap="butt"/></g></svg>`},
	{"clip paths in one another", SvgHead + `<clipPath id="b"><circle cx="60" cy="40" r="30"/></clipPath>` +
		`<rect width="120" height="45" clip-path="url(&quot;#b&quot;)"/>
		<clipPath id="t" transform="rotate(20 60 90)"><g><rect width="120" height="120"/></g>` +
		`<rect x="30" y="75" width="60" height="30" transform="scale(.9)" opacity="0" fill="none"/></clipPath>` +
		`<g transform="translate(10 0)" style="clip-path:url(#t)"><rect width="120" height="120"/></g></svg>`},
	{"clip rule from around", SvgHead +
		`<g clip-rule="evenodd"><clipPath id="c"><path d="M10 10h100v100h-100zM30 30h60v60h-60z"/></clipPath></g>` +
		`<rect width="120" height="90" clip-path="url(#c)"/></svg>`},
	{"clip paths measured by what they cut", SvgHead + `<clipPath id="c" clipPathUnits="objectBoundingBox">` +
		`<circle cx=".5" cy=".5" r=".5"/></clipPath><rect x="10" y="10" width="60" height="30" clip-path="url(#c)"/>
		<g clip-path="url(#c)"><rect x="10" y="60" width="20" height="20"/><rect x="60" y="70" width="40" ` +
		`height="40"/></g><g id="u"><circle cx="30" cy="60" r="9"/></g>` +
		`<use href="#u" x="70" y="-40" clip-path="url(#c)"/><path d="M100 10h10" stroke="black" ` +
		`clip-path="url(#c)"/></svg>`},
	{"a clip path on the drawing itself", strings.Replace(SvgHead, ">",
		` clip-path="url(#c)" transform="translate(5 0)">`, 1) +
		`<clipPath id="c"><circle cx="60" cy="60" r="40"/></clipPath><rect width="120" height="60"/></svg>`},
	{"colours", SvgHead + `<rect width="10" height="10" fill="#000f"/><rect x="12" width="10" height="10" ` +
		`fill="#0000"/><rect x="24" width="10" height="10" fill="rgb(0 0 0)"/><rect x="48" width="10" height="10" ` +
		`fill="rgba(0,0,0,0)"/><rect x="72" width="10" height="10" fill="hsl(120,100%,0%)"/>
		<rect x="84" width="10" height="10" fill="hsla(120,100%,0%,0)"/><rect x="96" width="10" height="10" ` +
		`fill="hsl(240, 50%, 100%)"/><rect y="20" width="10" height="10" fill="BLACK"/>` +
		`<rect y="20" x="12" width="10" height="10" fill="bogus"/><g fill="none"><rect y="20" x="36" width="10" ` +
		`height="10" style="fill:bogus"/>
		<rect y="20" x="48" width="10" height="10" fill="#12"/></g><rect y="20" x="60" width="10" height="10" ` +
		`fill="White"/><g color="black" fill="none"><rect y="40" x="24" width="10" height="10" color="transparent" ` +
		`fill="currentColor"/><rect y="40" x="12" width="10" height="10" fill="CURRENTCOLOR"/></g></svg>`},
	{"selectors", SvgHead + `<style type="text/css"><![CDATA[ <!--
		g rect{fill:none} g .on{fill:black} g > .kid{fill:black} rect.x,circle.y{fill:black} svg g#id ` +
		`rect{fill:black} rect + circle{fill:none} rect ~ ellipse{fill:none} rect:first-child{fill:black} ` +
		`rect[width="11"]{fill:black} .m.n{fill:black} .b{fill:none!important}
		--> ]]></style><g><rect width="10" height="10"/><rect x="12" width="10" height="10"/>` +
		`<rect class="on" x="24" width="10" height="10"/><rect class="kid" x="36" width="10" height="10"/><g><rect/>` +
		`<rect class="kid" x="48" width="10" height="10"/></g><rect class="x" x="60" width="10" height="10"/>
		<rect class="m n" x="72" width="10" height="10"/><rect class="m" x="84" width="10" height="10"/></g>` +
		`<g id="id"><g><rect y="20" width="10" height="10"/></g></g><rect x="20" y="20" width="10" height="10"/>` +
		`<circle cx="45" cy="25" r="5"/><ellipse cx="65" cy="25" rx="5" ry="5"/>
		<g><rect/><rect x="95" y="20" width="11" height="10"/></g><rect class="b" x="20" y="50" width="10" ` +
		`height="10" style="fill:black"/><rect id="r" x="40" y="50" width="10" height="10"/><g>` +
		`<use href="#r" x="20"/></g></svg>`},
	{"style attributes", SvgHead + `<rect width="20" height="20" style="fill:url(data:a;b) ` +
		`black;;stroke:black;stroke-width:4"/><rect x="80" width="20" height="20" style="fill:none;fill:bogus"/>` +
		`<rect x="10" y="40" width="20" height="20" style="/*c*/fill:none/*d*/;stroke:black;stroke-width:3"/>
		<rect style="x:50px;y:50px;width:30px;height:25%;rx:4px"/></svg>`},
	{"the stroke under the fill", SvgHead +
		`<path d="M20 20h50v50h-50z"/><circle cx="50" cy="50" r="20" fill="white" stroke="black" stroke-width="10" ` +
		`paint-order="stroke"/></svg>`},
	{"transforms, badly written", SvgHead + `<rect x="40" y="20" width="10" height="10" transform=" translate ( 10 ` +
		`, 10 ) , rotate(10) "/><rect x="60" y="20" width="10" height="10" transform="translate(1e1)rotate(-5)"/>` +
		`<rect x="80" y="20" width="10" height="10" transform="scale(0)"/>
		<rect x="5" y="60" width="10" height="10" transform="rotate(10 20)"/><rect x="60" y="60" width="10" ` +
		`height="10" transform="translate(5px 5px)"/><rect x="80" y="80" width="10" height="10" ` +
		`style="transform:translate(10px,5px) rotate(10deg)"/></svg>`},
	{"prefixes of one's own",
		`<s:svg xmlns:s="http://www.w3.org/2000/svg" xmlns:x="http://www.w3.org/1999/xlink" width="80" height="60">` +
			`<s:defs><s:rect id="r" width="30" height="30"/></s:defs><s:use x:href="#r" x="20"/></s:svg>`},
	{"entities for namespaces only",
		`<!DOCTYPE svg [<!ENTITY ns_svg "http://www.w3.org/2000/svg"><!ATTLIST svg a CDATA #IMPLIED>]>` +
			`<svg xmlns="&ns_svg;" width="80" height="60"><rect x="10" y="10" width="20" height="20"/></svg>`},
	{"mixed with elements of others",
		`<svg xmlns="http://www.w3.org/2000/svg" xmlns:i="urn:i" width="120" height="120"><i:p>` +
			`<rect width="50" height="50"/></i:p><switch><foreignObject requiredExtensions="urn:i" width="1" ` +
			`height="1"><i:x/></foreignObject><g i:e="self"><rect x="60" y="60" width="40" height="40"/></g>` +
			`</switch><a href="https://a.example/"><rect width="9" height="9"/></a></svg>`},
}

func init() { Drawings = append(Drawings, moreDrawings...) }
