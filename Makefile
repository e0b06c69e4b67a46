# Everything there is to do here. `make` alone lists it.

GO     ?= go
PORT   ?= 8080
PREFIX ?=
OUT    ?= build/site
# Our own packages are not inlined: the program is a tenth smaller, and what a finger waits for is held by `make bench`.
LEAN   := -trimpath -ldflags="-s -w" -gcflags=gapwright/...=-l
LINKED  := build/linked.wasm
PROGRAM := build/app.wasm

.DEFAULT_GOAL := help
.PHONY: help run build program test soak site size bench golden fmt vet clean

help: ## list what make can do
	@grep -E '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | awk -F '\t' '{ printf "  make %-8s %s\n", $$1, $$2 }'

run: program ## build the app and serve it at http://127.0.0.1:$PORT (8080)
	@$(GO) build -o build/serve ./cmd/serve
	@PORT=$(PORT) exec build/serve -wasm $(PROGRAM)

build: program ## build every program into build/
	$(GO) build -o build/ ./cmd/serve ./cmd/site ./cmd/check ./cmd/inbrowser ./cmd/lean

program:
	@mkdir -p build
	@GOOS=js GOARCH=wasm $(GO) build $(LEAN) -o $(LINKED) ./cmd/gapwright
	@$(GO) run ./cmd/lean $(LINKED) $(PROGRAM)

test: ## run every test; the last line counts them (BROWSER=no leaves the browser out, ENGINES=all adds Firefox and WebKitGTK)
	@mkdir -p build
	@$(GO) build -o build/check ./cmd/check
	@build/check

soak: ## try for a long time what may not lose anything: faults by chance natively, and a browser killed 40 times; prints what was tried and lost
	@mkdir -p build
	@$(GO) test ./app/store -count=1 -v -timeout 0 -runs 30000 > build/soak.txt 2>&1; ended=$$?; \
	$(GO) test ./app/phone -count=1 -v -timeout 0 -run 'CalledSavedSurvivesAKill|TwoTabsOnOneJob' -kills 40 -patience 3m >> build/soak.txt 2>&1 && exit=$$ended || exit=1; \
	grep -E 'tried|--- FAIL|^(ok|FAIL)' build/soak.txt; exit $$exit

site: program ## write the static site to build/site (PREFIX=/folder below the root of a host, OUT=folder to write to)
	$(GO) run ./cmd/site -wasm $(PROGRAM) -prefix "$(PREFIX)" -out "$(OUT)"

size: program ## size of the app beside the smallest go-app there can be, both as they are sent and both treated alike
	@GOOS=js GOARCH=wasm $(GO) build -trimpath -ldflags="-s -w" -o build/least.wasm ./testdata/least
	@$(GO) run ./cmd/size build/least.wasm $(LINKED)

bench: ## measure how fast the computing is, then in Chromium a start, a first visit, taps, a drag and a full Bench, beside their budgets
	@$(GO) test -run '^$$' -bench . -benchmem $$(grep -rl --include='*_test.go' '^func Benchmark' ./geometry ./app | xargs -n 1 dirname | sort -u | grep -v phone)
	@$(GO) test ./app/phone -run '^$$' -bench . -timeout 0 -patience 1m

golden: ## rewrite the expected results in testdata; look at the difference before keeping it
	$(GO) test $$(grep -rl --include='*_test.go' 'flag.Bool("update"' ./app ./geometry | xargs -n 1 dirname | sort -u) -update

fmt: ## format the Go code
	gofmt -w app cmd geometry web

vet: ## look for mistakes that the compiler lets through
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./app/store ./app/view ./cmd/gapwright

clean: ## remove what was built
	rm -rf build
