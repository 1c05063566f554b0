// Invented for this project: C++ ways to write rows. \
int not_this[] = {1, 2, 4, 8};
#include <array>
namespace press {
constexpr std::array<std::uint8_t, 8> order{{0b1000'0000, 0b1100'0000, 0b0100'0000, 0b0110'0000,
                                             0b0010'0000, 0b0011'0000, 0b0001'0000, 0b1001'0000}};
class Gate {
    static constexpr bool wave[4][4] = {{true,false,false,false},{false,true,false,false},
                                        {false,false,true,false},{false,false,false,true}};
    const char *help = R"text( int no[] = {1,2,4,8}; )text";
};
} // namespace press
