package phone

import (
	"fmt"
	"net"
	"os"
	"strconv"
	"sync"
	"syscall"
	"time"

	"github.com/chromedp/chromedp"

	"gapwright/app/site"
)

// An installation is a profile in which the app lies whole on the device, and the address that it came from: nobody listens there any more.
type installation struct{ profile, home string }

// installedIn is the folder of the installation, to be removed at the end; "" before there is one.
var installedIn string

// installed puts the app on a phone once for all walks: each takes a copy.
var installed = sync.OnceValues(func() (is installation, err error) {
	program, err := program()
	if err != nil {
		return is, err
	}
	built, err := site.Build(site.Options{Wasm: program})
	if err != nil {
		return is, err
	}
	if is.profile, err = os.MkdirTemp("", "phone-installed"); err != nil {
		return is, err
	}
	installedIn = is.profile
	host := &Host{port: "0", handler: site.Handler(built)}
	if err := host.listen(); err != nil {
		return is, err
	}
	is.home = host.URL()
	tab, stop, err := Browser(is.profile, func(any) {})
	if err != nil {
		return is, err
	}
	err = chromedp.Do(tab, chromedp.Navigate(is.home+"/"))
	ready := false
	for end := time.Now().Add(3 * Patience); err == nil && !ready && time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		ready, _ = chromedp.Run(tab, chromedp.Evaluate[bool](
			`Promise.resolve(globalThis.gapwright && gapwright.offline()).then(state => state === "ready")`, chromedp.EvalAwaitPromise)) // the page may just be changing
	}
	stop()
	host.Stop()
	if err == nil && !ready {
		err = fmt.Errorf("the app was not ready offline in time")
	}
	if err != nil {
		return is, fmt.Errorf("installing the app: %w", err)
	}
	return is, occupy(host.port)
})

// occupy holds a port on which nobody listens, so that no later host gets it.
func occupy(port string) error {
	number, err := strconv.Atoi(port)
	if err != nil {
		return err
	}
	socket, err := syscall.Socket(syscall.AF_INET, syscall.SOCK_STREAM, 0)
	if err != nil {
		return err
	}
	for end := time.Now().Add(Patience); ; time.Sleep(100 * time.Millisecond) {
		err = syscall.Bind(socket, &syscall.SockaddrInet4{Port: number, Addr: [4]byte(net.IPv4(127, 0, 0, 1).To4())})
		if err == nil || time.Now().After(end) {
			return err
		}
	}
}
