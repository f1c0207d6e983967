#pragma once

/// The method in time: a Rosenbrock method with U = Gamma K [hairer1996] IV.7, six solves and three
/// evaluations of the rates a step: stages 2 and 3 share one, stages 4 to 6 another.
namespace dampline::stack::kernel {

struct Rosenbrock {
  static constexpr int stages = 6;
  int rates_of[6];  ///< the stage whose rates a stage has: its own, or an earlier one's
  double gamma;
  double at[6][3];      ///< where a stage with rates of its own looks, from those before it
  double couple[6][5];  ///< stages into later right sides, per length of the step
  double result[6];
  double error[6];     ///< the result less the embedded one
  double dense[3][6];  ///< within the step: by rising power of its share
};

/// Fourth order, L-stable, no decay overshot; embedded third order; within the step third order
/// with small errors of fourth. Numbers found by us: of the methods that meet the conditions
/// (tests/stack/rosenbrock_test.cpp holds to them) one with small errors of fifth order that does
/// well on sheets soaked, blotted and dried.
constexpr Rosenbrock rosenbrock{
    .rates_of = {0, 1, 1, 3, 3, 3},
    .gamma = 0.28326793490991803038,
    .at = {{0},
           {1.8805818662393999351},
           {0},
           {4.6563075629046428386, 3.1011088895956396911, 0.33472031178497682042},
           {0},
           {0}},
    .couple = {{0},
               {-5.6051725508455848449},
               {0.13028941793548024807, 2.6465812736865758881},
               {-4.5471311021648918441, -14.302210864944910468, 8.4082064768288312829},
               {17.812900794493808309, -8.0944764648830291352, 12.710478704209627751,
                -3.081400776155340769},
               {-15.438092626452876401, 32.130051718712833088, -31.055429027083657556,
                10.843898475331933457, 5.3268924497385785314}},
    .result = {7.693170575758978924, 13.226155719308678544, -7.3768699261274558737,
               2.6266710441088537778, 0.19151201073188927321, -0.37295837833799075775},
    .error = {-1.2047057196165175074, -2.5566380491179893721, 1.6223708447992384065,
              -0.8568239724310611561, 0.13281667699817292257, 0.13426777642233981437},
    .dense = {{12.234285227462695653, 10.237938373294193778, -7.6403699931667392294,
               -0.82596063913800792802, 0.39642632192923670011, 0.33442419501655301277},
              {-29.646234141915200614, -46.788799812899736302, 37.488337516832287782,
               -0.60956789054243725049, -1.9855561206993298605, -0.79061007919031097013},
              {25.105119490211483884, 49.777017158914221069, -37.224837449793004426,
               4.0621995737892989563, 1.7806418095019824336, 0.083227505835767199615}}};

}  // namespace dampline::stack::kernel
