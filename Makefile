# SPDX-License-Identifier: GPL-3.0-or-later
# The few things one does here. Each installs the Debian packages it needs and says what it does.
.PHONY: help demo test bench verify format tidy

help:
	@echo "make demo    build Sightfall and check the demo site: verdicts in a table, pictures and papers in build/demo"
	@echo "make test    build with sanitizers and run every test"
	@echo "make bench   build and run the benchmarks, each beside its reference"
	@echo "make verify  photograph plates and faces and have them read by machine (some 20 minutes)"
	@echo "make format  lay out the code as .clang-format says"
	@echo "make tidy    read every file with clang-tidy, warnings as errors"

demo test bench verify format tidy:
	@tools/$@
