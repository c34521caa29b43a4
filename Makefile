# Set-up needs Go and make alone.

YARD := testdata/yard/thistlewick.toml
PROGRAM := bin/brineyard
STATICCHECK := honnef.co/go/tools/cmd/staticcheck@v0.8.2

.PHONY: build demo test bench endurance lint

build:
	go build -trimpath -ldflags "-s -w" -o $(PROGRAM) ./cmd/brineyard

# The main job on the demo yard: may the mixer be pumped?
demo: build
	$(PROGRAM) check --yard $(YARD) --tank mixer --hydrometer 23.3% --temp 40F

test:
	go test ./...

bench:
	go test -run '^$$' -bench . ./...

# The journal under many processes, kills and full disks, at full length: minutes.
endurance:
	BRINEYARD_ENDURANCE=1 go test -timeout 30m -v -run 'Processes|Kills' ./internal/journal

# What a change has to be clean of.
lint:
	test -z "$$(gofmt -l .)" || { gofmt -l .; exit 1; }
	go vet ./...
	go mod tidy -diff
	go run $(STATICCHECK) ./...
