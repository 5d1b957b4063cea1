/// Every quantity that can be worked out or looked up alone, by name: what `soilhold factor` serves and what the rows
/// of the handbooks are tried against.
///
/// Inputs are written "key=value;key=value"; a value is a number, a range ("3-5", "<16"), words, or a list ("5/10/15").
/// Units stand in the key (`length_ft`), as the sources print them.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "factors/slope_class.h"
#include "source/citation.h"
#include "source/remark.h"

namespace soilhold::factors {

/// Inputs as written, read when asked for. All readers throw std::invalid_argument in a plain sentence.
class Inputs {
  public:
    /// Splits "key=value;key=value". @throws std::invalid_argument for a piece without "=" or a key given twice
    explicit Inputs(std::string_view written);

    bool has(std::string_view key) const;
    const std::string& words(std::string_view key) const;
    double number(std::string_view key) const;
    double positive(std::string_view key) const;
    double not_negative(std::string_view key) const;
    double share_pct(std::string_view key) const;  ///< 0 to 100
    int whole(std::string_view key) const;
    ClassLimits range(std::string_view key) const;
    std::vector<double> list(std::string_view key) const;  ///< "5/10/15", with or without a unit word after it
    const std::vector<std::pair<std::string, std::string>>& all() const { return pieces_; }

  private:
    std::vector<std::pair<std::string, std::string>> pieces_;
};

/// How a value came about.
enum class Way {
    equation,  ///< worked out
    table,     ///< looked up in a reference table
    reported,  ///< someone's single figure
};

struct Answer {
    double value = 0.0;
    Way way = Way::equation;
    source::Origin origin;
    source::Remarks remarks;
};

struct Quantity {
    std::string name;
    std::string unit;
    std::vector<std::string> keys;  ///< "length_ft"; "alpha_acre_per_lb?" may be left out
    std::function<Answer(const Inputs&)> work_out;
};

/// All quantities, by factor and then in the order of their files.
const std::vector<Quantity>& all_quantities();

/// The quantity of a name. @throws std::invalid_argument that names near ones when there is none
const Quantity& quantity(std::string_view name);

/// The answer to inputs as written.
/// @throws std::invalid_argument for unknown names or keys, missing, malformed or impossible inputs
Answer answer(std::string_view name, std::string_view inputs);

// The lists, one file a factor.
std::vector<Quantity> rain_quantities();
std::vector<Quantity> storm_quantities();
std::vector<Quantity> soil_quantities();
std::vector<Quantity> slope_quantities();
std::vector<Quantity> cover_quantities();
std::vector<Quantity> residue_quantities();
std::vector<Quantity> practice_quantities();
std::vector<Quantity> loss_quantities();

/// An answer by an equation whose record of data/reference/citations.csv is `citation`.
Answer by_equation(double value, std::string_view citation, source::Remarks remarks = {});

/// An answer out of data/reference/<table>.csv; source and standing are those of its first row, or of the first row
/// whose `column` holds `word`.
Answer by_table(double value, std::string_view table);
Answer by_table(double value, std::string_view table, std::string_view column, std::string_view word);

/// Someone's figure for the words under `key`.
Quantity reported_quantity(std::string name, std::string unit, std::string key);

}  // namespace soilhold::factors
