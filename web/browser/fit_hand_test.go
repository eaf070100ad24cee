package browser

// watchFits counts the fits that workers are at, and those that were ended before they were done.
const watchFits = `globalThis.fits = {under: 0, ended: 0, effort: 0};
	const {postMessage, terminate} = Worker.prototype;
	Worker.prototype.postMessage = function (message, ...rest) {
		if (message.verb === "fit") {
			this.at = message.id;
			fits.under++;
			fits.effort = message.args.effort;
			this.addEventListener("message", ({data}) => {
				if (data.ok === undefined || message.id !== data.id) return;
				if (this.at === data.id) this.at = undefined;
				fits.under--;
			});
		}
		return postMessage.call(this, message, ...rest);
	};
	Worker.prototype.terminate = function () {
		if (this.at !== undefined) { fits.under--; fits.ended++; }
		return terminate.call(this);
	};`

// handGoesFirst drags a copy while a thorough fit is under way, again where that was nearly done: no fit goes on then.
func (p *tab) handGoesFirst() {
	p.t.Helper()
	s := p.whole()
	from := s.on(p.takeUp(s, false).inner)
	to := point{from.x + 12, from.y + 9}
	for range 8 {
		p.wait("a thorough fit", `fits.under > 0 && fits.effort > 3`)
		p.press(from)
		p.pull(from, to, 4)
		p.wait("fits to make room for the hand", `fits.under === 0`)
		p.release(to)
		p.strike("z", control)
		if eval[int](p, `fits.ended`) > 0 {
			return
		}
	}
	p.t.Error("no fit was ended by a hand")
}
