module layshaft

go 1.26.0

require (
	github.com/go-echarts/go-echarts/v2 v2.7.2
	github.com/rogpeppe/go-internal v1.16.0
	github.com/spf13/pflag v1.1.0
	golang.org/x/term v0.48.0
	golang.org/x/text v0.44.0
	gonum.org/v1/gonum v0.17.0
	gopkg.in/yaml.v3 v3.0.1
	pgregory.net/rapid v1.3.0
)

require (
	github.com/kr/text v0.2.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/tools v0.52.0 // indirect
)
