// The library is found by this one.
#pragma once
