# What can be done here, each by one word. Go is all that is needed; "make demo"
# first, to see what this is.

export CGO_ENABLED = 0

VERSION  := $(shell git describe --tags --always --dirty 2>/dev/null || echo devel)
BUILD     = go build -trimpath -ldflags "-s -w -X main.version=$(VERSION)"
SOURCES  := $(shell find cmd dsp shutter report -name '*.go' -not -name '*_test.go') go.mod go.sum
FUZZTIME ?= 10s
# The tag of staticcheck 2026.2.2.
STATICCHECK = honnef.co/go/tools/cmd/staticcheck@v0.8.2

.PHONY: build demo test test-long bench sources accuracy train constants symptoms lint fuzz man release docs clean

build: bin/earshot bin/earshot-decode

bin/earshot bin/earshot-decode: $(SOURCES)
	@mkdir -p bin
	@echo "Building $@; the first time takes a minute or two."
	$(BUILD) -o $@ ./cmd/$(@F)

# A drawer of invented lenses, all of them checked, and one before and after service. The
# recordings are written anew where the program is newer or one of them is not as it was;
# what has been checked and has not changed is not checked again.
SHA256SUM := $(or $(shell command -v sha256sum),shasum -a 256)
demo: build
	@if [ demo/.recordings -nt bin/earshot ] && (cd demo && $(SHA256SUM) --status -c .recordings); then \
	    echo "1 of 3: the recordings in demo/ are as they were."; \
	else \
	    echo "1 of 3: writing the recordings of an invented shop into demo/:"; rm -rf demo; \
	    bin/earshot demo demo | awk '{ printf "  %2d  %s\n", NR, $$3; fflush() }'; \
	    cd demo && $(SHA256SUM) truth.csv drawer.csv *.wav *.m4a > .written && mv .written .recordings || exit 1; \
	fi
	@echo; echo "2 of 3: checking every lens:"
	@[ -t 2 ] || verbose=--verbose; bin/earshot drawer demo $$verbose
	@echo; echo "3 of 3: comparing one lens before and after service:"
	@bin/earshot compare demo/report/ostrivel-*before-service*.json demo/report/ostrivel-*after-service*.json --chart demo/report/ostrivel-service.png
	@echo; echo "To look at, in a browser: demo/report/index.html; the pictures for a listing: demo/report/*.png"

# The quick packages come first: a line is printed when a package and all before it are done.
TESTED = ./report/... ./shutter ./shutter/internal/... ./shutter/assign ./shutter/judge ./dsp/... ./cmd/internal/... ./shutter/hear/... ./cmd/earshot-decode ./cmd/earshot-accuracy ./cmd/earshot

# No test asserts a time by the clock, so the limit is only for one that hangs.
test:
	@echo "1 of 2: vet"
	go vet ./...
	@echo "2 of 2: tests, a line a package; three minutes on two cores. Longer ones: make test-long"
	go test -short -timeout 60m $(TESTED)

test-long:
	@echo "every test, a line a package; ten minutes on two cores"
	go test -timeout 120m $(TESTED)

bench:
	go test -run '^$$' -bench . -benchmem ./...

# The tests that hold figures against standards, handbooks and other libraries; writes
# docs/sources.md.
sources:
	go run ./cmd/earshot-accuracy -sources docs/sources.md

# Errors of timing and of the stated uncertainty, over seeded recordings with known
# truth; writes docs/accuracy.md.
accuracy:
	go run ./cmd/earshot-accuracy

# The weights by which clips are explained, fitted anew to seeded recordings of every
# generator, and their page, docs/weights.md. WITHOUT=impact leaves one out and reports on
# it instead.
train:
ifdef WITHOUT
	go run ./cmd/earshot-accuracy -without $(WITHOUT)
else
	go run ./cmd/earshot-accuracy -train shutter/hear/scene/weights.go -weights docs/weights.md
endif

# Every constant of hearing halved and doubled; writes docs/constants.md. It takes some
# 20 s a constant: LIMIT=30m ends it early, and the page says what was not run.
LIMIT ?= 0
constants:
	go run ./cmd/earshot-accuracy -constants docs/constants.md -limit $(LIMIT)

# Shutters with one thing wrong, and what they are found to have; writes docs/symptoms.md.
symptoms:
	go run ./cmd/earshot-accuracy -symptoms docs/symptoms.md

lint:
	@unformatted=$$(gofmt -l cmd dsp shutter report); \
	    if [ -n "$$unformatted" ]; then echo "not formatted by gofmt:"; echo "$$unformatted"; exit 1; fi
	go vet ./...
	go run $(STATICCHECK) ./...

# Every fuzz target for FUZZTIME. The go command now and then reports the end of that
# time as a failure ("context deadline exceeded", no failing input): that is none.
fuzz:
	@grep -rl '^func Fuzz' --include='*_test.go' cmd dsp shutter report | xargs -n1 dirname | sort -u | while read -r dir; do \
	    for target in $$(sed -n 's/^func \(Fuzz[A-Za-z0-9_]*\).*/\1/p' "$$dir"/*_test.go); do \
	        echo "$$dir $$target"; \
	        said=$$(go test -run '^$$' -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 100x "./$$dir" 2>&1); failed=$$?; \
	        printf '%s\n' "$$said"; \
	        case "$$said" in *"Failing input"*|*panic*) ;; *"context deadline exceeded"*) failed=0 ;; esac; \
	        [ $$failed -eq 0 ] || exit 1; \
	    done || exit 1; \
	done

man: bin/earshot
	bin/earshot man dist/man/man1
	@ls dist/man/man1

# Both programs for every system they are built for, each with its manual and
# completions, and their checksums; the same commit gives the same bytes.
SYSTEMS = linux/amd64 linux/arm64 darwin/amd64 darwin/arm64 windows/amd64 windows/arm64
release:
	@$(MAKE) --always-make man >/dev/null # of this commit, whatever lies in bin
	@rm -rf dist/release dist/completions && mkdir -p dist/release dist/completions
	@for shell in bash zsh fish powershell; do bin/earshot completion $$shell > dist/completions/earshot.$$shell || exit 1; done
	@ffmpreg=$$(go list -m -f '{{.Dir}}' codeberg.org/gruf/go-ffmpreg) || exit 1; \
	for system in $(SYSTEMS); do \
	    name=earshot-$(VERSION)-$$(echo $$system | tr / -); stage=dist/release/$$name; suffix=; \
	    case $$system in windows/*) suffix=.exe ;; esac; \
	    mkdir -p $$stage; \
	    for program in earshot earshot-decode; do \
	        GOOS=$${system%/*} GOARCH=$${system#*/} $(BUILD) -o $$stage/$$program$$suffix ./cmd/$$program || exit 1; \
	    done; \
	    cp -r README.md LICENSE dist/man dist/completions $$stage; \
	    cp $$ffmpreg/LICENSE $$stage/LICENSE-earshot-decode; chmod -R u=rwX,go=rX $$stage; \
	    tar --sort=name --owner=0 --group=0 --numeric-owner --mtime=@$$(git log -1 --format=%ct) \
	        -C dist/release -cf - $$name | gzip -n9 > $$stage.tar.gz && rm -r $$stage || exit 1; \
	done
	@cd dist/release && sha256sum *.tar.gz > SHA256SUMS && cat SHA256SUMS

# The picture and the table in README.md, anew from the demo.
docs:
	go test ./cmd/earshot -run TestReadme -update

clean:
	rm -rf bin demo dist
