package site

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"github.com/andybalholm/brotli"
)

// Write puts a site into a folder, for any host that hands out files: a page is the index.html of its folder, and beside each file that
// gets smaller by it lie its .br and .gz. The folder is emptied first; one that holds anything but a site is refused. It takes its
// time over the compression, some 20 s for the program, unless it is to be quick.
func Write(s Site, folder string, quick bool) error {
	if err := empty(folder); err != nil {
		return err
	}
	var work sync.WaitGroup
	errs := make(chan error, len(s.Files))
	for _, address := range s.Addresses() {
		work.Go(func() { errs <- write(folder, address, s.Files[address], quick) })
	}
	work.Wait()
	close(errs)
	for err := range errs {
		if err != nil {
			return err
		}
	}
	// Hosts that know this name show it for an address that nobody knows; its script then finds the way.
	return os.WriteFile(filepath.Join(folder, "404.html"), s.Files[Shell].Body, 0o644)
}

// empty makes the folder new. What is there already must be a site, known by its worker: a wrong folder named by mistake is kept.
func empty(folder string) error {
	entries, err := os.ReadDir(folder)
	if err != nil && !os.IsNotExist(err) {
		return err
	}
	if len(entries) > 0 {
		if _, err := os.Stat(filepath.Join(folder, Worker)); err != nil {
			return fmt.Errorf("%s holds something else than a site: name another folder", folder)
		}
	}
	if err := os.RemoveAll(folder); err != nil {
		return err
	}
	return os.MkdirAll(folder, 0o755)
}

func write(folder, address string, file File, quick bool) error {
	name := filepath.Join(folder, filepath.FromSlash(address))
	if strings.HasSuffix(address, "/") {
		name = filepath.Join(name, "index.html")
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(name, file.Body, 0o644); err != nil {
		return err
	}
	if file.Type == "image/png" {
		return nil
	}
	forBrotli, forGzip := brotli.BestCompression, gzip.BestCompression
	if quick {
		forBrotli, forGzip = brotli.BestSpeed, gzip.BestSpeed
	}
	for ending, small := range map[string][]byte{".br": brotlied(file.Body, forBrotli), ".gz": gzipped(file.Body, forGzip)} {
		if len(small) < len(file.Body) {
			if err := os.WriteFile(name+ending, small, 0o644); err != nil {
				return err
			}
		}
	}
	return nil
}

// Writing into memory cannot fail, so the errors of the two are not looked at.

// Brotli compresses as hard as every browser can still read: quality 11, and a window of 16 MB, which the whole program fits into.
func Brotli(body []byte) []byte { return brotlied(body, brotli.BestCompression) }

func brotlied(body []byte, quality int) []byte {
	var b bytes.Buffer
	w := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: quality, LGWin: 24})
	w.Write(body)
	w.Close()
	return b.Bytes()
}

func gzipped(body []byte, level int) []byte {
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, level)
	w.Write(body)
	w.Close()
	return b.Bytes()
}
