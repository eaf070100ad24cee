package browser

// watchFits counts the fits that workers are at, and those whose workers were ended before they were done; effort is
// that of the fit begun last.
const watchFits = `globalThis.fits = {running: 0, ended: 0, effort: 0};
	const {postMessage, terminate} = Worker.prototype;
	Worker.prototype.postMessage = function (message, ...rest) {
		if (message.verb === "fit") {
			this.fitting = message.id;
			fits.running++;
			fits.effort = message.args.effort;
			this.addEventListener("message", ({data}) => {
				if (data.ok === undefined || message.id !== data.id) return;
				if (this.fitting === data.id) this.fitting = undefined;
				fits.running--;
			});
		}
		return postMessage.call(this, message, ...rest);
	};
	Worker.prototype.terminate = function () {
		if (this.fitting !== undefined) { fits.running--; fits.ended++; }
		return terminate.call(this);
	};`

// dragEndsFits drags a copy while a fit of the second, better pass is running: it ends, and no other begins until the
// copy is let go. A fit that is nearly done may come to its own end first; then another one is dragged against.
func (p *tab) dragEndsFits() {
	p.t.Helper()
	s := p.whole()
	from := s.on(p.takeUp(s, false).inner)
	to := point{from.x + 12, from.y + 9}
	for range 8 {
		p.wait("a fit of the better pass", `fits.running > 0 && fits.effort > 3`)
		p.press(from)
		p.pull(from, to, 4)
		p.wait("fits to end during a drag", `fits.running === 0`)
		p.release(to)
		p.strike("z", control)
		if eval[int](p, `fits.ended`) > 0 {
			return
		}
	}
	p.t.Error("no fit was ended by a drag")
}
