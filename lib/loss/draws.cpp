#include "loss/draws.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "factors/slope_profile.h"
#include "spread/low_discrepancy.h"
#include "structure/structure_factor.h"

namespace soilhold::loss {

namespace {

/// Hands out columns of the point set; what is stated alike gets one column.
class Columns {
  public:
    std::size_t shared(const spread::Uncertain& input, std::vector<const spread::Uncertain*>& known,
                       std::vector<std::size_t>& columns) {
        for (std::size_t i = 0; i < known.size(); ++i)
            if (known[i]->same_statement(input)) return columns[i];
        known.push_back(&input);
        columns.push_back(next_);
        return next_++;
    }
    std::size_t own() { return next_++; }
    /// The column of a part of calendars: one for all, but one a field for what its own reading set.
    std::size_t part(const std::string& name) {
        const auto [at, fresh] = parts_.try_emplace(name, next_);
        if (fresh) ++next_;
        return at->second;
    }
    std::size_t count() const { return next_; }

  private:
    std::size_t next_ = 0;
    std::map<std::string, std::size_t> parts_;
};

struct PracticeColumns {
    std::size_t length = 0, gradient = 0, C = 0, P = 0, leaving = 0;
    std::vector<std::size_t> calendar;  ///< one a doubt of the calendar; C has no column then
};

struct FieldColumns {
    std::size_t R = 0, K = 0, m = 0;
    PracticeColumns now;
    std::vector<PracticeColumns> changes;
};

/// Columns of a calendar's doubts, in their order.
std::vector<std::size_t> calendar_columns(const PracticeInputs& practice, std::size_t field, Columns& columns) {
    std::vector<std::size_t> result;
    if (!practice.calendar) return result;
    for (const rotation::Doubt& doubt : practice.calendar->doubts) {
        const bool read = doubt.part.find("-read") != std::string::npos;
        result.push_back(columns.part(read ? doubt.part + std::to_string(field) : doubt.part));
    }
    return result;
}

std::vector<FieldColumns> assign(const std::vector<FieldInputs>& fields, std::size_t& count) {
    Columns columns;
    std::vector<const spread::Uncertain*> rains, soils, lengths, gradients;
    std::vector<std::size_t> rain_columns, soil_columns, length_columns, gradient_columns;
    std::vector<FieldColumns> result;
    for (const FieldInputs& field : fields) {
        FieldColumns mine;
        mine.R = columns.shared(field.R, rains, rain_columns);
        mine.K = columns.shared(field.K, soils, soil_columns);
        mine.m = columns.own();
        mine.now.length = columns.shared(field.now.length_m, lengths, length_columns);
        mine.now.gradient = columns.shared(field.now.gradient, gradients, gradient_columns);
        mine.now.calendar = calendar_columns(field.now, result.size(), columns);
        if (!field.now.calendar) mine.now.C = columns.own();
        mine.now.P = columns.own();
        if (field.now.leaving) mine.now.leaving = columns.own();
        for (const PracticeInputs& change : field.changes) {
            PracticeColumns changed = mine.now;
            if (change.own_length) changed.length = columns.own();
            if (change.own_cover) {
                changed.calendar = calendar_columns(change, result.size(), columns);
                if (!change.calendar) changed.C = columns.own();
            }
            if (change.own_practice) changed.P = columns.own();
            if (change.leaving && (change.own_practice || !field.now.leaving)) changed.leaving = columns.own();
            mine.changes.push_back(changed);
        }
        result.push_back(std::move(mine));
    }
    count = columns.count();
    return result;
}

/// Values of one input over all points.
std::vector<double> values(const spread::Uncertain& input, const std::vector<double>& scores) {
    std::vector<double> column(scores.size());
    for (std::size_t i = 0; i < scores.size(); ++i) column[i] = spread::at_score(input, scores[i]);
    return column;
}

/// C over all points: its own column, or the parts of its calendar together.
std::vector<double> covers(const PracticeInputs& practice, const PracticeColumns& columns,
                           const spread::Scores& scores) {
    if (!practice.calendar) return values(practice.C, scores[columns.C]);
    const double C = practice.calendar->calendar.C;
    std::vector<double> moves(scores.front().size(), 0.0);
    for (std::size_t d = 0; d < columns.calendar.size(); ++d)
        for (std::size_t i = 0; i < moves.size(); ++i)
            moves[i] += rotation::log_move(practice.calendar->doubts[d], C, scores[columns.calendar[d]][i]);
    for (double& move : moves)
        move = std::clamp(practice.C.central * std::exp(move), practice.C.least, practice.C.most);
    return moves;
}

std::vector<double> slope_factors(const FieldInputs& field, const PracticeInputs& practice,
                                  const PracticeColumns& columns, const spread::Scores& scores) {
    const auto& length_scores = scores[columns.length];
    const auto& gradient_scores = scores[columns.gradient];
    std::vector<double> LS(length_scores.size());
    for (std::size_t i = 0; i < LS.size(); ++i)
        LS[i] = slope_factor_of(field, practice, spread::at_score(practice.length_m, length_scores[i]),
                                spread::at_score(practice.gradient, gradient_scores[i]));
    return LS;
}

/// The loss of each part of a slope that bends, as far as nothing cuts it; `rest` is the loss over LS.
std::vector<std::vector<double>> part_losses(const FieldInputs& field, const PracticeInputs& practice,
                                             const PracticeColumns& columns, const spread::Scores& scores,
                                             const PracticeDraws& whole) {
    std::vector<std::vector<double>> parts;
    if (practice.cut || field.shape.empty()) return parts;
    for (std::size_t part = 0; part < field.shape.size(); ++part) {
        std::vector<double> loss(whole.loss.size());
        for (std::size_t i = 0; i < loss.size(); ++i)
            loss[i] = whole.loss[i] / whole.LS[i] *
                      factors::part_slope_factor(part, spread::at_score(practice.length_m, scores[columns.length][i]),
                                                 spread::at_score(practice.gradient, scores[columns.gradient][i]),
                                                 field.shape, field.method, field.rill_ratio);
        parts.push_back(std::move(loss));
    }
    return parts;
}

}  // namespace

double structure_at(const structure::StructureFactor& structure, double z) {
    if (!structure.assessment) return 1.0;
    const structure::Assessment& a = *structure.assessment;
    return std::clamp(a.m * std::exp(z * a.posterior_log_sd), structure::least_m(), structure::most_m());
}

std::vector<FieldDraws> draw(const std::vector<FieldInputs>& fields, const DrawSettings& settings) {
    std::size_t count = 0;
    const std::vector<FieldColumns> columns = assign(fields, count);
    const spread::Scores scores = spread::normal_scores(std::max<std::size_t>(count, 1), settings.draws, settings.seed);

    std::vector<FieldDraws> result;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        const FieldInputs& field = fields[f];
        FieldDraws draws;
        draws.structure_score = scores[columns[f].m];

        std::vector<double> soil_and_rain = values(field.R, scores[columns[f].R]);
        const std::vector<double> K = values(field.K, scores[columns[f].K]);
        for (std::size_t i = 0; i < K.size(); ++i) soil_and_rain[i] *= K[i];
        std::vector<double> m(K.size());
        for (std::size_t i = 0; i < m.size(); ++i) m[i] = structure_at(field.structure, draws.structure_score[i]);

        const auto product = [&](const PracticeInputs& practice, const PracticeColumns& mine,
                                 const PracticeDraws* now) {
            PracticeDraws out;
            out.LS = now && !practice.own_length && practice.cut == field.now.cut
                         ? now->LS
                         : slope_factors(field, practice, mine, scores);
            const std::vector<double> C = covers(practice, mine, scores);
            const std::vector<double> P = values(practice.P, scores[mine.P]);
            out.loss_without_tests.resize(C.size());
            out.loss.resize(C.size());
            for (std::size_t i = 0; i < C.size(); ++i) {
                out.loss_without_tests[i] = soil_and_rain[i] * out.LS[i] * C[i] * P[i];
                out.loss[i] = out.loss_without_tests[i] * (practice.uses_structure ? m[i] : 1.0);
            }
            if (practice.leaving) {
                out.leaving = values(*practice.leaving, scores[mine.leaving]);
                for (std::size_t i = 0; i < out.leaving.size(); ++i) out.leaving[i] *= out.loss[i];
            }
            if (!now) out.part_loss = part_losses(field, practice, mine, scores, out);
            return out;
        };
        draws.now = product(field.now, columns[f].now, nullptr);
        for (std::size_t c = 0; c < field.changes.size(); ++c)
            draws.changes.push_back(product(field.changes[c], columns[f].changes[c], &draws.now));
        result.push_back(std::move(draws));
    }
    return result;
}

}  // namespace soilhold::loss
