package phone

import (
	"testing"

	"gapwright/app/view"
)

func TestEveryPlaceOpensWithoutANetwork(t *testing.T) {
	for name, model := range map[string]Model{"small": Small, "tall in the dark": Tall.InTheDark()} {
		t.Run(name, func(t *testing.T) {
			host := Serve(t, Site(t))
			p := New(t, model)
			p.Visit(host)
			p.WaitReadyOffline()
			host.Stop()
			p.Expect("net::ERR_CONNECTION_REFUSED") // the browser looks for a newer worker
			for _, place := range view.Places() {
				for _, query := range []string{"", "?id=x"} {
					p.Open(string(place) + query)
					if got := p.Place(); got != string(place)+query {
						t.Errorf("opened %s%s, the address is %s", place, query, got)
					}
					p.Reload()
					if !p.Shown("main h1") {
						t.Errorf("%s%s without a network: no heading is shown", place, query)
					}
				}
			}
		})
	}
}
