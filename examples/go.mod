module github.com/indexrun/indexrun/examples

go 1.25.0

require (
	github.com/indexrun/indexrun v0.0.0
	github.com/stretchr/testify v1.12.1
)

require (
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace github.com/indexrun/indexrun => ../
