package phone

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// CheckAccessible looks at what the page shows now with axe-core, and reports everything it finds as an error of the test.
func (p *Phone) CheckAccessible() {
	p.t.Helper()
	if p.JS("typeof axe") != "object" {
		engine, err := os.ReadFile(filepath.Join(Root(), "testdata", "axe", "axe.min.js"))
		if err != nil {
			p.t.Fatal(err)
		}
		p.run(string(engine))
	}
	// What moves into place is looked at when it is there.
	p.JS(`Promise.allSettled(document.getAnimations().map(a => a.finished))`)
	found := p.JS(`axe.run(document, { resultTypes: ["violations"] }).then(result => result.violations.flatMap(v =>
		v.nodes.map(n => v.id + " (" + v.impact + "): " + v.help + "\n    " + n.html + "\n    " + n.failureSummary)))`).([]any)
	for _, violation := range found {
		p.t.Errorf("%s at %s: %s", p.Place(), p.JS("innerWidth + ' x ' + innerHeight"), violation)
	}
}

// CheckFits reports everything on the page that sticks out of the screen's width, and every control that is smaller than a fingertip:
// 44 CSS pixels each way, links inside a sentence excepted.
func (p *Phone) CheckFits() {
	p.t.Helper()
	found := p.JS(`(() => {
		const wrong = [];
		if (document.documentElement.scrollWidth > innerWidth) {
			for (const e of document.body.querySelectorAll("*")) {
				const box = e.getBoundingClientRect();
				if (box.right > innerWidth + 1 && box.width > 0) wrong.push("sticks out to " + Math.round(box.right) + ": " + e.outerHTML.slice(0, 120));
			}
		}
		for (const e of document.body.querySelectorAll("button, a[href], input, select, textarea, summary, [role=button], [role=slider]")) {
			const target = e.labels && e.labels.length > 0 ? e.labels[0] : e, box = target.getBoundingClientRect(), own = e.getBoundingClientRect();
			if (box.width === 0 || getComputedStyle(e).display === "inline") continue;
			const width = Math.max(box.width, own.width), height = Math.max(box.height, own.height);
			if (width < 44 || height < 44) wrong.push("only " + Math.round(width) + " x " + Math.round(height) + ": " + e.outerHTML.slice(0, 120));
		}
		return wrong.slice(0, 10);
	})()`).([]any)
	for _, wrong := range found {
		p.t.Errorf("%s at %d x %d: %s", p.Place(), p.model.Width, p.model.Height, wrong)
	}
}

// CheckAnswersInView reports the answers of a step that nobody sees without scrolling: a list that ends at the edge of the screen looks whole.
func (p *Phone) CheckAnswersInView() {
	p.t.Helper()
	for _, hidden := range p.JS(`(() => {
		const foot = document.querySelector("#screen .foot"), low = Math.min(innerHeight, foot ? foot.getBoundingClientRect().top : innerHeight);
		return [...document.querySelectorAll("#screen .choice, #screen .chips .chip, #screen .parts .toggle, #screen .turning .step-button")]
			.filter(e => e.checkVisibility() && !e.closest(".grid, .more") && e.getBoundingClientRect().bottom > low + 1)
			.map(e => e.textContent.trim() + " ends at " + Math.round(e.getBoundingClientRect().bottom) + " of " + Math.round(low));
	})()`).([]any) {
		p.t.Errorf("%s at %d x %d: outside of the first view: %s", p.Place(), p.model.Width, p.model.Height, hidden)
	}
}

// CheckLonger reports what sticks out of the screen when every word is longer by two fifths, as those of another language may be.
func (p *Phone) CheckLonger() {
	p.t.Helper()
	p.JS(`(() => {
		const all = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
		window.longer = [];
		while (all.nextNode()) {
			const n = all.currentNode;
			if (n.parentElement.closest("svg, script, style, textarea")) continue;
			longer.push([n, n.data]);
			n.data = n.data.replace(/[A-Za-z’]+/g, w => w + w.slice(0, Math.round(0.4 * w.length)).toLowerCase());
		}
	})()`)
	p.CheckFits()
	p.JS(`longer.forEach(([n, text]) => n.data = text)`)
}

// CheckKeyboard goes through the page with the Tab key and reports every control that does not get the keyboard, or that does not show
// that it has it. Of radio buttons that belong together one is enough, as the arrows move among them.
func (p *Phone) CheckKeyboard() {
	p.t.Helper()
	want := make(map[string]bool)
	for _, c := range p.Controls() {
		if !c.Disabled && c.Role != "option" && c.Role != "radio" {
			want[c.Role+" "+c.Name] = true
		}
	}
	radio := slices.ContainsFunc(p.Controls(), func(c Control) bool { return c.Role == "radio" && !c.Disabled })
	p.JS("document.activeElement && document.activeElement.blur()")
	missing := len(want)
	for range 3*len(want) + 20 {
		if missing == 0 && !radio {
			break
		}
		p.Press("Tab")
		c, ok := p.Focused()
		if !ok {
			continue
		}
		if c.Role == "radio" {
			radio = false
		}
		if want[c.Role+" "+c.Name] {
			want[c.Role+" "+c.Name] = false
			missing--
			if p.JS(showsFocus) != true {
				p.t.Errorf("%s: nothing shows that %s %q has the keyboard", p.Place(), c.Role, c.Name)
			}
		}
	}
	var out []string
	for name, still := range want {
		if still {
			out = append(out, name)
		}
	}
	if radio {
		out = append(out, "any radio button")
	}
	if len(out) > 0 {
		slices.Sort(out)
		p.t.Errorf("%s: the keyboard does not reach %s", p.Place(), strings.Join(out, ", "))
	}
}

// showsFocus is true when the element with the keyboard, or one around it or beside it that stands for it, is drawn differently for it.
const showsFocus = `(() => {
	const e = document.activeElement, parts = [e, e.parentElement, e.nextElementSibling, e.labels && e.labels[0]].filter(Boolean);
	const look = part => { const s = getComputedStyle(part); return [s.outlineStyle, s.outlineWidth, s.boxShadow, s.borderColor, s.backgroundColor, s.stroke].join() };
	const with_ = parts.map(look);
	if (parts.some(part => { const s = getComputedStyle(part); return s.outlineStyle !== "none" && parseFloat(s.outlineWidth) > 0 })) return true;
	e.blur();
	const without = parts.map(look);
	e.focus();
	return with_.some((l, i) => l !== without[i]);
})()`

// run evaluates a script whose value does not matter.
func (p *Phone) run(script string) {
	p.t.Helper()
	if _, err := p.evaluate(fmt.Sprintf("(() => { %s\n; return true })()", script)); err != nil {
		p.t.Fatalf("running a script: %v", err)
	}
}
