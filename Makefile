# Set-up needs Go and make alone.

YARD := testdata/yard/thistlewick.toml
PROGRAM := bin/brineyard
STATICCHECK := honnef.co/go/tools/cmd/staticcheck@v0.8.2

.PHONY: build demo test bench cover endurance fuzz lint dist reference accuracy same

build:
	CGO_ENABLED=0 go build -trimpath -ldflags "-s -w" -o $(PROGRAM) ./cmd/brineyard

# The main job on the demo yard: may the mixer be pumped?
demo: build
	$(PROGRAM) check --yard $(YARD) --tank mixer --hydrometer 23.3% --temp 40F

test:
	go test ./...

bench:
	go test -run '^$$' -bench . ./...

# The core's statements that its tests run: 95 in a hundred at least.
cover:
	go test -cover ./internal/solution ./internal/sure ./internal/gauge ./internal/balance ./internal/brine ./internal/season ./internal/ready ./internal/lineup ./internal/truck ./internal/storm | awk '{ print } \
		!/^ok/ { bad = 1 } match($$0, /[0-9.]+%/) && substr($$0, RSTART, RLENGTH - 1) + 0 < 95 { bad = 1 } END { exit bad }'

# Static programs for Linux, macOS and Windows, packed, with checksums.
VERSION := 0.1.0

dist:
	BRINEYARD_RELEASE=1 go test ./internal/release
	go run ./internal/release -version $(VERSION) -out dist

# The program against every published table in testdata; fails where a bound is broken.
accuracy:
	go run ./internal/accuracy

# The program against an older build of it, over random command lines of every command:
# make same OLD=path/to/program; SEED=2 takes other lines, ONLY=check those of a command.
LINES := 5000
SEED := 1

same: build
	$(if $(OLD),,$(error make same: OLD is missing; allowed: OLD=path/to/program, an older build of it))
	go run ./internal/same -old "$(OLD)" -new $(PROGRAM) -lines $(LINES) -seed $(SEED) -only "$(ONLY)"

# The command reference and the manual pages, out of the help.
reference:
	UPDATE_DOCS=1 go test ./internal/cli -run TestReferenceIsCurrent

# Every parser, for so long each, five at a time. Making an interesting input small may
# take a minute by default, in which nothing else is tried: here it takes 100 tries.
FUZZTIME := 20s
FUZZERS := words:FuzzWords quantity:FuzzParse cli/bind:FuzzArguments cli/tank:FuzzTimed cli:FuzzEach yard/file:FuzzParse yard/file:FuzzStorm \
	journal:FuzzRow journal:FuzzCell zone:FuzzRule journal/sheet:FuzzImport drill:FuzzJudge quantity:FuzzPlain yard/file:FuzzEdit

# A run that ends in the middle of a try may say so as a failure; one with no input to
# show for it is none.
fuzz:
	echo $(FUZZERS) | tr ' ' '\n' | xargs -P 5 -I TARGET sh -c 't=TARGET; failed=; \
		out=$$(go test -run "^$$" -parallel 1 -fuzz "^$${t#*:}$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 100x ./internal/$${t%:*} 2>&1) || failed=1; \
		echo "$$out" | tail -n 20 | sed "s|^|$$t: |"; test -z "$$failed" || \
		{ echo "$$out" | grep -q "context deadline exceeded" && ! echo "$$out" | grep -q "Failing input"; }'

# The journal under many processes, kills and full disks, at full length: minutes.
endurance:
	BRINEYARD_ENDURANCE=1 go test -timeout 30m -v -run 'Processes|Kill|Attack|Beginners' ./internal/journal/disk
	BRINEYARD_ENDURANCE=1 go test -timeout 30m -v -run 'HoldTheTruth|EdgeIsSeldom' ./internal/brine

# What a change has to be clean of.
lint:
	test -z "$$(gofmt -l .)" || { gofmt -l .; exit 1; }
	go vet ./...
	go mod tidy -diff
	go run $(STATICCHECK) ./...
