package phone

import "testing"

func TestEveryPlaceOpensWithoutANetwork(t *testing.T) {
	t.Parallel()
	for name, model := range map[string]Model{"small": Small, "tall in the dark": Tall.InTheDark()} {
		t.Run(name, func(t *testing.T) {
			s := Site(t)
			host := Serve(t, s)
			p := New(t, model)
			p.Visit(host)
			p.WaitReadyOffline()
			host.Stop()
			p.Expect("net::ERR_CONNECTION_REFUSED") // the browser looks for a newer worker
			p.everyPlaceOpens(s.Version)
		})
	}
}
